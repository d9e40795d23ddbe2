-- AlterTable
ALTER TABLE "JobOperation" ADD COLUMN     "leftOutAtIssue" INTEGER;
