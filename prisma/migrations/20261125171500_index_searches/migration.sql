-- A search looks for what is typed anywhere in a number or name; only trigrams can find that by an index.
-- pg_trgm comes with PostgreSQL and is trusted: whoever owns the database may add it.
create extension if not exists pg_trgm;

-- CreateIndex
CREATE INDEX "Customer_name_search" ON "Customer" USING GIN ("name" gin_trgm_ops);

-- CreateIndex
CREATE INDEX "Part_number_search" ON "Part" USING GIN ("number" gin_trgm_ops);

-- CreateIndex
CREATE INDEX "Part_name_search" ON "Part" USING GIN ("name" gin_trgm_ops);

-- CreateIndex
CREATE INDEX "Part_customerRef_search" ON "Part" USING GIN ("customerRef" gin_trgm_ops);

-- CreateIndex
CREATE INDEX "Job_number_search" ON "Job" USING GIN ("number" gin_trgm_ops);

-- The latest lessons of a material, without reading all of them.
-- CreateIndex
CREATE INDEX "Lesson_kind_materialId_id_idx" ON "Lesson"("kind", "materialId", "id");
