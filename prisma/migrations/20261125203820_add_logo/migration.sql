-- AlterTable
ALTER TABLE "Shop" ADD COLUMN     "logoId" INTEGER;

-- AddForeignKey
ALTER TABLE "Shop" ADD CONSTRAINT "Shop_logoId_fkey" FOREIGN KEY ("logoId") REFERENCES "StoredFile"("id") ON DELETE SET NULL ON UPDATE CASCADE;
