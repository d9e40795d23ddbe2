-- AlterTable
ALTER TABLE "Filler" ADD COLUMN     "ownAlloyId" TEXT;

-- CreateTable
CREATE TABLE "FillerAlloy" (
    "id" TEXT NOT NULL,
    "data" JSONB NOT NULL,
    "createdAt" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "version" INTEGER NOT NULL DEFAULT 0,

    CONSTRAINT "FillerAlloy_pkey" PRIMARY KEY ("id")
);

-- CreateIndex
CREATE INDEX "Filler_ownAlloyId_idx" ON "Filler"("ownAlloyId");

-- AddForeignKey
ALTER TABLE "Filler" ADD CONSTRAINT "Filler_ownAlloyId_fkey" FOREIGN KEY ("ownAlloyId") REFERENCES "FillerAlloy"("id") ON DELETE RESTRICT ON UPDATE RESTRICT;

-- A pot has one alloy: where it is the shop's own, both columns name it.
ALTER TABLE "Filler" ADD CONSTRAINT "Filler_ownAlloyId_check" CHECK ("ownAlloyId" IS NULL OR "ownAlloyId" = "fillerId");
