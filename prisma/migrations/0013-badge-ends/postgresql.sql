-- Until when a badge may act, codes that sign in one device once, and tries with codes that open no more.

ALTER TABLE "Badge" ADD COLUMN "codeTag" TEXT;
ALTER TABLE "Badge" ADD COLUMN "endsAt" TIMESTAMP(3);
ALTER TABLE "Badge" ADD COLUMN "reusable" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Badge" ADD COLUMN "codeUsedAt" TIMESTAMP(3);
CREATE INDEX "Badge_codeTag_idx" ON "Badge" ("codeTag");
-- Codes that were given out before, to be used again and again.
UPDATE "Badge" SET "reusable" = true;

ALTER TABLE "Session" ADD COLUMN "endedAt" TIMESTAMP(3);
ALTER TABLE "SignIn" ADD COLUMN "refused" TEXT;
ALTER TABLE "HeldFix" ADD COLUMN "ended" TEXT;
ALTER TABLE "HeldFix" ADD COLUMN "endedAt" TIMESTAMP(3);
