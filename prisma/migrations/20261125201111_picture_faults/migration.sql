-- AlterTable
ALTER TABLE "StoredFile" ADD COLUMN     "nonconformanceId" INTEGER;

-- CreateIndex
CREATE INDEX "StoredFile_nonconformanceId_idx" ON "StoredFile"("nonconformanceId");

-- AddForeignKey
ALTER TABLE "StoredFile" ADD CONSTRAINT "StoredFile_nonconformanceId_fkey" FOREIGN KEY ("nonconformanceId") REFERENCES "Nonconformance"("id") ON DELETE SET NULL ON UPDATE CASCADE;
