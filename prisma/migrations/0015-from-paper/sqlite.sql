-- What was written on paper first: when, and who saw it.

ALTER TABLE "Permit" ADD COLUMN "paperAt" DATETIME;
ALTER TABLE "Permit" ADD COLUMN "witness" TEXT;
ALTER TABLE "Tag" ADD COLUMN "witness" TEXT;
