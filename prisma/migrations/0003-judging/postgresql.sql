-- Judging: the mark rule, what was measured with its budget, who saw it, re-throws, protests and their rulings.

ALTER TABLE "Contest" ADD COLUMN "markRule" TEXT;
ALTER TABLE "Contest" ADD COLUMN "protestMinutes" INTEGER NOT NULL DEFAULT 30;
ALTER TABLE "Fix" ADD COLUMN "located" TEXT;
ALTER TABLE "Fix" ADD COLUMN "witness" TEXT;
ALTER TABLE "Fix" ADD COLUMN "sequence" INTEGER NOT NULL DEFAULT 0;

CREATE TABLE "Protest" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "entrantId" TEXT NOT NULL,
  "shotId" TEXT,
  "text" TEXT NOT NULL,
  "lateReason" TEXT,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Protest_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Protest_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Protest_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Protest_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Protest_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Protest_contestId_sequence_idx" ON "Protest" ("contestId", "sequence");

ALTER TABLE "Ruling" ADD COLUMN "fixId" TEXT CONSTRAINT "Ruling_fixId_fkey" REFERENCES "Fix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE;
ALTER TABLE "Ruling" ADD COLUMN "protestId" TEXT CONSTRAINT "Ruling_protestId_fkey" REFERENCES "Protest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE;

CREATE TRIGGER "Protest_append_only" BEFORE UPDATE OR DELETE ON "Protest"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
