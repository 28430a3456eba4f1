-- Whether somebody gave a point its height, and agreements that ended with what they were about.

ALTER TABLE "FiringPoint" ADD COLUMN "heightGiven" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "ControlPoint" ADD COLUMN "heightGiven" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "Consent" ADD COLUMN "lapsed" BOOLEAN NOT NULL DEFAULT false;

-- Another height than the contest's can only have been given.
UPDATE "FiringPoint" SET "heightGiven" = true
  WHERE "height" <> (SELECT "height" FROM "Contest" WHERE "Contest"."id" = "FiringPoint"."contestId");
UPDATE "ControlPoint" SET "heightGiven" = true
  WHERE "height" <> (SELECT "height" FROM "Contest" WHERE "Contest"."id" = "ControlPoint"."contestId");
