-- AlterTable
ALTER TABLE "StoredFile" ADD COLUMN     "storageKey" TEXT,
ALTER COLUMN "content" DROP NOT NULL;


-- A file's content is in one place, never in none and never in two.
alter table "StoredFile" add constraint content_in_one_place check (("content" is null) <> ("storageKey" is null));
