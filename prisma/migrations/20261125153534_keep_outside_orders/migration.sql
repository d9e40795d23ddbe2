-- AlterTable
ALTER TABLE "Ask" ADD COLUMN     "deliveredOn" DATE,
ADD COLUMN     "orderedOn" DATE,
ADD COLUMN     "orderedQuantity" INTEGER,
ADD COLUMN     "promisedOn" DATE,
ADD COLUMN     "rejectedQuantity" INTEGER,
ADD COLUMN     "replacesRejects" BOOLEAN NOT NULL DEFAULT false;

ALTER TABLE "Ask"
ADD CONSTRAINT "Ask_order_check" CHECK (
  ("orderedQuantity" IS NULL OR "orderedQuantity" >= 1)
  AND ("rejectedQuantity" IS NULL OR ("rejectedQuantity" >= 0 AND "rejectedQuantity" <= "orderedQuantity"))
  AND ("deliveredOn" IS NULL OR "deliveredOn" >= "orderedOn")
);
