-- The range: rules of site features, control points, heights, a picture underneath, the wind of the day, barriers,
-- consents, the safety plan and its frozen files.

ALTER TABLE "SiteFeature" ADD COLUMN "rule" TEXT;
ALTER TABLE "Machine" ADD COLUMN "pinned" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "FiringPoint" ADD COLUMN "accuracy" DOUBLE PRECISION NOT NULL DEFAULT 0;

CREATE TABLE "ControlPoint" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "latitude" DOUBLE PRECISION NOT NULL,
  "longitude" DOUBLE PRECISION NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  "accuracy" DOUBLE PRECISION NOT NULL,
  "note" TEXT NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  CONSTRAINT "ControlPoint_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "ControlPoint_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "ControlPoint_contestId_name_key" ON "ControlPoint" ("contestId", "name");

CREATE TABLE "SpotHeight" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "latitude" DOUBLE PRECISION NOT NULL,
  "longitude" DOUBLE PRECISION NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  CONSTRAINT "SpotHeight_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SpotHeight_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "SpotHeight_contestId_idx" ON "SpotHeight" ("contestId");

CREATE TABLE "AerialPicture" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "mediaType" TEXT NOT NULL,
  "width" INTEGER NOT NULL,
  "height" INTEGER NOT NULL,
  "content" BYTEA NOT NULL,
  "sha256" TEXT NOT NULL,
  "pins" TEXT NOT NULL,
  "opacity" DOUBLE PRECISION NOT NULL,
  "shown" BOOLEAN NOT NULL DEFAULT true,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "AerialPicture_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "AerialPicture_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "AerialPicture_contestId_idx" ON "AerialPicture" ("contestId");

CREATE TABLE "WindReading" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "speed" DOUBLE PRECISION NOT NULL,
  "gust" DOUBLE PRECISION NOT NULL,
  "direction" DOUBLE PRECISION NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  "observer" TEXT NOT NULL,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "expiresAt" TIMESTAMP(3) NOT NULL,
  "badgeId" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "WindReading_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "WindReading_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "WindReading_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "WindReading_contestId_observedAt_idx" ON "WindReading" ("contestId", "observedAt");

CREATE TABLE "Barrier" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "geometry" TEXT NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  "reason" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Barrier_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Barrier_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Barrier_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Barrier_contestId_idx" ON "Barrier" ("contestId");

CREATE TABLE "Consent" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "kind" TEXT NOT NULL,
  "party" TEXT NOT NULL,
  "reference" TEXT NOT NULL,
  "featureId" TEXT,
  "givenOn" TEXT,
  "expiresOn" TEXT,
  "note" TEXT NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  CONSTRAINT "Consent_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Consent_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Consent_featureId_fkey" FOREIGN KEY ("featureId") REFERENCES "SiteFeature" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Consent_contestId_idx" ON "Consent" ("contestId");

CREATE TABLE "SafetyPlan" (
  "contestId" TEXT NOT NULL,
  "body" TEXT NOT NULL,
  "updatedAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "SafetyPlan_pkey" PRIMARY KEY ("contestId"),
  CONSTRAINT "SafetyPlan_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE "SafetyFile" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "body" TEXT NOT NULL,
  "hash" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "SafetyFile_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SafetyFile_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "SafetyFile_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "SafetyFile_contestId_number_key" ON "SafetyFile" ("contestId", "number");

CREATE TRIGGER "WindReading_append_only" BEFORE UPDATE OR DELETE ON "WindReading"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
CREATE TRIGGER "SafetyFile_append_only" BEFORE UPDATE OR DELETE ON "SafetyFile"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
