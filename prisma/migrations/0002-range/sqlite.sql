-- The range: rules of site features, control points, heights, a picture underneath, the wind of the day, barriers,
-- consents, the safety plan and its frozen files.

ALTER TABLE "SiteFeature" ADD COLUMN "rule" TEXT;
ALTER TABLE "Machine" ADD COLUMN "pinned" BOOLEAN NOT NULL DEFAULT false;
ALTER TABLE "FiringPoint" ADD COLUMN "accuracy" REAL NOT NULL DEFAULT 0;

CREATE TABLE "ControlPoint" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "latitude" REAL NOT NULL,
  "longitude" REAL NOT NULL,
  "height" REAL NOT NULL,
  "accuracy" REAL NOT NULL,
  "note" TEXT NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  CONSTRAINT "ControlPoint_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "ControlPoint_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "ControlPoint_contestId_name_key" ON "ControlPoint" ("contestId", "name");

CREATE TABLE "SpotHeight" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "latitude" REAL NOT NULL,
  "longitude" REAL NOT NULL,
  "height" REAL NOT NULL,
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
  "content" BLOB NOT NULL,
  "sha256" TEXT NOT NULL,
  "pins" TEXT NOT NULL,
  "opacity" REAL NOT NULL,
  "shown" BOOLEAN NOT NULL DEFAULT true,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "AerialPicture_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "AerialPicture_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "AerialPicture_contestId_idx" ON "AerialPicture" ("contestId");

CREATE TABLE "WindReading" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "speed" REAL NOT NULL,
  "gust" REAL NOT NULL,
  "direction" REAL NOT NULL,
  "height" REAL NOT NULL,
  "observer" TEXT NOT NULL,
  "observedAt" DATETIME NOT NULL,
  "expiresAt" DATETIME NOT NULL,
  "badgeId" TEXT NOT NULL,
  "createdAt" DATETIME NOT NULL,
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
  "height" REAL NOT NULL,
  "reason" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  "createdAt" DATETIME NOT NULL,
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
  "updatedAt" DATETIME NOT NULL,
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
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "SafetyFile_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SafetyFile_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "SafetyFile_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "SafetyFile_contestId_number_key" ON "SafetyFile" ("contestId", "number");

CREATE TRIGGER "WindReading_no_update" BEFORE UPDATE ON "WindReading"
BEGIN SELECT RAISE(ABORT, 'WindReading is append-only: add a new row'); END;
CREATE TRIGGER "WindReading_no_delete" BEFORE DELETE ON "WindReading"
BEGIN SELECT RAISE(ABORT, 'WindReading is append-only: add a new row'); END;
CREATE TRIGGER "SafetyFile_no_update" BEFORE UPDATE ON "SafetyFile"
BEGIN SELECT RAISE(ABORT, 'SafetyFile is append-only: add a new row'); END;
CREATE TRIGGER "SafetyFile_no_delete" BEFORE DELETE ON "SafetyFile"
BEGIN SELECT RAISE(ABORT, 'SafetyFile is append-only: add a new row'); END;
