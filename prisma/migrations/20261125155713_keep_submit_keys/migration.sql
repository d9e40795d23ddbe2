-- CreateTable
CREATE TABLE "SubmitKey" (
    "key" TEXT NOT NULL,
    "userId" INTEGER NOT NULL,
    "at" TIMESTAMPTZ(3) NOT NULL DEFAULT CURRENT_TIMESTAMP,
    "answer" JSONB,

    CONSTRAINT "SubmitKey_pkey" PRIMARY KEY ("key")
);

-- CreateIndex
CREATE INDEX "SubmitKey_at_idx" ON "SubmitKey"("at");
