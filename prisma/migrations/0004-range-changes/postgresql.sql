-- The range as it changes: days of a contest, protections that wait for the safety officer, what has left.

ALTER TABLE "Contest" ADD COLUMN "lastDate" TEXT;
-- Whatever was protected less than its kind before this waits for the safety officer too.
ALTER TABLE "SiteFeature" ADD COLUMN "allowance" TEXT;
ALTER TABLE "FiringPoint" ADD COLUMN "retired" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Machine" ADD COLUMN "retired" BOOLEAN NOT NULL DEFAULT false;
