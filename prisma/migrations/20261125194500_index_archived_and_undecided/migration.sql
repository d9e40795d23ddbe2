-- Lists leave out what is put away and count what is undecided: without these they read the whole table.
CREATE INDEX "Customer_archivedAt_name_idx" ON "Customer"("archivedAt", "name");

CREATE INDEX "Nonconformance_disposition_idx" ON "Nonconformance"("disposition");
