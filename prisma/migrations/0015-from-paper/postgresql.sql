-- What was written on paper first: when, and who saw it.

ALTER TABLE "Permit" ADD COLUMN "paperAt" TIMESTAMP(3);
ALTER TABLE "Permit" ADD COLUMN "witness" TEXT;
ALTER TABLE "Tag" ADD COLUMN "witness" TEXT;
