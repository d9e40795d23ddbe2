-- DropIndex
DROP INDEX "Lesson_bendRecordId_key";

-- AlterTable
ALTER TABLE "Job" ADD COLUMN     "endReason" TEXT NOT NULL DEFAULT '';

-- AlterTable
ALTER TABLE "Lesson" ADD COLUMN     "declinedAt" TIMESTAMPTZ(3);

-- CreateIndex
CREATE INDEX "Lesson_jobId_idx" ON "Lesson"("jobId");

-- CreateIndex
CREATE INDEX "Lesson_bendRecordId_idx" ON "Lesson"("bendRecordId");

-- CreateIndex
CREATE UNIQUE INDEX "Lesson_kind_bendRecordId_key" ON "Lesson"("kind", "bendRecordId");

-- AddForeignKey
ALTER TABLE "Lesson" ADD CONSTRAINT "Lesson_jobId_fkey" FOREIGN KEY ("jobId") REFERENCES "Job"("id") ON DELETE SET NULL ON UPDATE CASCADE;

-- AddForeignKey
ALTER TABLE "Lesson" ADD CONSTRAINT "Lesson_bendRecordId_fkey" FOREIGN KEY ("bendRecordId") REFERENCES "BendRecord"("id") ON DELETE SET NULL ON UPDATE CASCADE;
