-- AlterTable
ALTER TABLE "Ask" ADD COLUMN     "suppliedCentsPerPiece" INTEGER NOT NULL DEFAULT 0;

ALTER TABLE "Ask" ADD CONSTRAINT "Ask_suppliedCentsPerPiece_check" CHECK ("suppliedCentsPerPiece" >= 0);
