-- The first complete data model: a contest from its divisions to its scorebook.

CREATE TABLE "Contest" (
  "id" TEXT NOT NULL,
  "slug" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "place" TEXT NOT NULL,
  "date" TEXT NOT NULL,
  "units" TEXT NOT NULL,
  "latitude" DOUBLE PRECISION NOT NULL,
  "longitude" DOUBLE PRECISION NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  "declination" DOUBLE PRECISION NOT NULL DEFAULT 0,
  "rounds" INTEGER NOT NULL,
  "policy" TEXT NOT NULL,
  "air" TEXT NOT NULL,
  "demo" BOOLEAN NOT NULL DEFAULT false,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Contest_pkey" PRIMARY KEY ("id")
);
CREATE UNIQUE INDEX "Contest_slug_key" ON "Contest" ("slug");

CREATE TABLE "Division" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "position" INTEGER NOT NULL,
  CONSTRAINT "Division_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Division_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Division_contestId_name_key" ON "Division" ("contestId", "name");

CREATE TABLE "Entrant" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "divisionId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  CONSTRAINT "Entrant_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Entrant_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Entrant_divisionId_fkey" FOREIGN KEY ("divisionId") REFERENCES "Division" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Entrant_contestId_number_key" ON "Entrant" ("contestId", "number");
CREATE UNIQUE INDEX "Entrant_contestId_name_key" ON "Entrant" ("contestId", "name");

CREATE TABLE "SiteFeature" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "kind" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "geometry" TEXT NOT NULL,
  "standOff" DOUBLE PRECISION,
  "retired" BOOLEAN NOT NULL DEFAULT false,
  CONSTRAINT "SiteFeature_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SiteFeature_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "SiteFeature_contestId_idx" ON "SiteFeature" ("contestId");

CREATE TABLE "FiringPoint" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  "latitude" DOUBLE PRECISION NOT NULL,
  "longitude" DOUBLE PRECISION NOT NULL,
  "height" DOUBLE PRECISION NOT NULL,
  CONSTRAINT "FiringPoint_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "FiringPoint_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "FiringPoint_contestId_number_key" ON "FiringPoint" ("contestId", "number");

CREATE TABLE "Badge" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "role" TEXT NOT NULL,
  "label" TEXT NOT NULL,
  "entrantId" TEXT,
  "codeHash" TEXT NOT NULL,
  "revokedAt" TIMESTAMP(3),
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Badge_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Badge_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Badge_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Badge_codeHash_key" ON "Badge" ("codeHash");
CREATE INDEX "Badge_contestId_idx" ON "Badge" ("contestId");

CREATE TABLE "Session" (
  "tokenHash" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  "expiresAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Session_pkey" PRIMARY KEY ("tokenHash"),
  CONSTRAINT "Session_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Session_badgeId_idx" ON "Session" ("badgeId");

CREATE TABLE "Idempotency" (
  "key" TEXT NOT NULL,
  "requestHash" TEXT NOT NULL,
  "status" INTEGER NOT NULL,
  "answer" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Idempotency_pkey" PRIMARY KEY ("key")
);
CREATE INDEX "Idempotency_createdAt_idx" ON "Idempotency" ("createdAt");

CREATE TABLE "Setting" (
  "key" TEXT NOT NULL,
  "value" TEXT NOT NULL,
  CONSTRAINT "Setting_pkey" PRIMARY KEY ("key")
);

CREATE TABLE "Machine" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "entrantId" TEXT NOT NULL,
  "name" TEXT NOT NULL,
  "firingPointId" TEXT,
  "bearing" DOUBLE PRECISION,
  CONSTRAINT "Machine_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Machine_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Machine_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Machine_firingPointId_fkey" FOREIGN KEY ("firingPointId") REFERENCES "FiringPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Machine_contestId_name_key" ON "Machine" ("contestId", "name");
CREATE INDEX "Machine_entrantId_idx" ON "Machine" ("entrantId");

CREATE TABLE "MachineRevision" (
  "id" TEXT NOT NULL,
  "machineId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "declared" TEXT NOT NULL,
  "note" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "MachineRevision_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "MachineRevision_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "MachineRevision_machineId_number_key" ON "MachineRevision" ("machineId", "number");

CREATE TABLE "HazardSheet" (
  "id" TEXT NOT NULL,
  "revisionId" TEXT NOT NULL,
  "inputHash" TEXT NOT NULL,
  "inputs" TEXT NOT NULL,
  "result" TEXT NOT NULL,
  "codeVersion" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "HazardSheet_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "HazardSheet_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "MachineRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "HazardSheet_revisionId_inputHash_codeVersion_key" ON "HazardSheet" ("revisionId", "inputHash", "codeVersion");

CREATE TABLE "Shot" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "entrantId" TEXT NOT NULL,
  "machineId" TEXT NOT NULL,
  "revisionId" TEXT NOT NULL,
  "firingPointId" TEXT NOT NULL,
  "bearing" DOUBLE PRECISION NOT NULL,
  "round" INTEGER NOT NULL,
  "position" INTEGER NOT NULL,
  CONSTRAINT "Shot_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Shot_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Shot_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Shot_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Shot_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "MachineRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Shot_firingPointId_fkey" FOREIGN KEY ("firingPointId") REFERENCES "FiringPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Shot_entrantId_round_key" ON "Shot" ("entrantId", "round");
CREATE INDEX "Shot_contestId_round_position_idx" ON "Shot" ("contestId", "round", "position");

CREATE TABLE "Fix" (
  "id" TEXT NOT NULL,
  "shotId" TEXT NOT NULL,
  "outcome" TEXT NOT NULL,
  "method" TEXT,
  "input" TEXT NOT NULL,
  "latitude" DOUBLE PRECISION,
  "longitude" DOUBLE PRECISION,
  "covariance" TEXT,
  "mark" DOUBLE PRECISION,
  "flags" TEXT NOT NULL,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "badgeId" TEXT NOT NULL,
  "replacesId" TEXT,
  "reason" TEXT,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Fix_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Fix_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Fix_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Fix_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Fix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Fix_replacesId_key" ON "Fix" ("replacesId");
CREATE INDEX "Fix_shotId_idx" ON "Fix" ("shotId");

CREATE TABLE "Ruling" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "entrantId" TEXT,
  "shotId" TEXT,
  "decision" TEXT NOT NULL,
  "reason" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Ruling_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Ruling_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Ruling_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Ruling_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Ruling_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Ruling_contestId_sequence_idx" ON "Ruling" ("contestId", "sequence");

CREATE TABLE "ScorebookEntry" (
  "contestId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "act" TEXT NOT NULL,
  "subjectId" TEXT NOT NULL,
  "badgeId" TEXT,
  "body" TEXT NOT NULL,
  "previousHash" TEXT NOT NULL,
  "hash" TEXT NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "ScorebookEntry_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "ScorebookEntry_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "ScorebookEntry_pkey" PRIMARY KEY ("contestId", "sequence")
);

-- What is official is added to and never changed. The program never tries; this holds it to that.
CREATE FUNCTION "append_only"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN RAISE EXCEPTION '% is append-only: add a new row', TG_TABLE_NAME; END $$;
CREATE TRIGGER "MachineRevision_append_only" BEFORE UPDATE OR DELETE ON "MachineRevision"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
CREATE TRIGGER "Fix_append_only" BEFORE UPDATE OR DELETE ON "Fix"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
CREATE TRIGGER "Ruling_append_only" BEFORE UPDATE OR DELETE ON "Ruling"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
CREATE TRIGGER "ScorebookEntry_append_only" BEFORE UPDATE OR DELETE ON "ScorebookEntry"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
