-- What went wrong with a machine, where its pieces went, and what was written about it, which can be erased.

CREATE TABLE "Incident" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "machineId" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Incident_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Incident_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Incident_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Incident_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Incident_contestId_number_key" ON "Incident" ("contestId", "number");
CREATE INDEX "Incident_machineId_idx" ON "Incident" ("machineId");

CREATE TABLE "IncidentReport" (
  "id" TEXT NOT NULL,
  "incidentId" TEXT NOT NULL,
  "part" TEXT NOT NULL,
  "hurt" TEXT NOT NULL,
  "revisionId" TEXT,
  "sheetId" TEXT,
  "firingPointId" TEXT,
  "latitude" DOUBLE PRECISION,
  "longitude" DOUBLE PRECISION,
  "height" DOUBLE PRECISION,
  "accuracy" DOUBLE PRECISION,
  "bearing" DOUBLE PRECISION,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "witness" TEXT,
  "salt" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "IncidentReport_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "IncidentReport_incidentId_fkey" FOREIGN KEY ("incidentId") REFERENCES "Incident" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentReport_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "MachineRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentReport_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "HazardSheet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentReport_firingPointId_fkey" FOREIGN KEY ("firingPointId") REFERENCES "FiringPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentReport_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "IncidentReport_incidentId_sequence_idx" ON "IncidentReport" ("incidentId", "sequence");

CREATE TABLE "IncidentPiece" (
  "id" TEXT NOT NULL,
  "incidentId" TEXT NOT NULL,
  "found" TEXT NOT NULL,
  "place" TEXT NOT NULL,
  "input" TEXT,
  "replacesId" TEXT,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "witness" TEXT,
  "salt" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "IncidentPiece_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "IncidentPiece_incidentId_fkey" FOREIGN KEY ("incidentId") REFERENCES "Incident" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentPiece_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "IncidentPiece" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentPiece_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "IncidentPiece_replacesId_key" ON "IncidentPiece" ("replacesId");
CREATE INDEX "IncidentPiece_incidentId_idx" ON "IncidentPiece" ("incidentId");

CREATE TABLE "IncidentWords" (
  "id" TEXT NOT NULL,
  "incidentId" TEXT NOT NULL,
  "kind" TEXT NOT NULL,
  "name" TEXT,
  "text" TEXT,
  "salt" TEXT,
  "keepUntil" TEXT NOT NULL,
  "erasedAt" TIMESTAMP(3),
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "IncidentWords_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "IncidentWords_incidentId_fkey" FOREIGN KEY ("incidentId") REFERENCES "Incident" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "IncidentWords_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "IncidentWords_incidentId_idx" ON "IncidentWords" ("incidentId");

CREATE TRIGGER "Incident_append_only" BEFORE UPDATE OR DELETE ON "Incident"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE TRIGGER "IncidentReport_append_only" BEFORE UPDATE OR DELETE ON "IncidentReport"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE TRIGGER "IncidentPiece_append_only" BEFORE UPDATE OR DELETE ON "IncidentPiece"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE FUNCTION "only_erased"() RETURNS trigger LANGUAGE plpgsql AS $$
BEGIN
  IF TG_OP = 'DELETE' THEN
    RAISE EXCEPTION '% can only be erased: add a new row', TG_TABLE_NAME;
  END IF;
  IF NEW."name" IS NOT NULL OR NEW."text" IS NOT NULL OR NEW."salt" IS NOT NULL OR NEW."erasedAt" IS NULL
    OR OLD."id" IS DISTINCT FROM NEW."id" OR OLD."incidentId" IS DISTINCT FROM NEW."incidentId" OR OLD."kind" IS DISTINCT FROM NEW."kind" OR OLD."keepUntil" IS DISTINCT FROM NEW."keepUntil"
    OR OLD."badgeId" IS DISTINCT FROM NEW."badgeId" OR OLD."sequence" IS DISTINCT FROM NEW."sequence" OR OLD."createdAt" IS DISTINCT FROM NEW."createdAt" THEN
    RAISE EXCEPTION '% can only be erased: add a new row', TG_TABLE_NAME;
  END IF;
  RETURN NEW;
END $$;
CREATE TRIGGER "IncidentWords_only_erased" BEFORE UPDATE OR DELETE ON "IncidentWords"
  FOR EACH ROW EXECUTE FUNCTION "only_erased"();
