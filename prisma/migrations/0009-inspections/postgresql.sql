-- What inspectors found, what the safety officer signed on it, and marks held against what was computed.

CREATE TABLE "Inspection" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "machineId" TEXT NOT NULL,
  "revisionId" TEXT NOT NULL,
  "outcome" TEXT NOT NULL,
  "limits" TEXT NOT NULL,
  "body" TEXT NOT NULL,
  "inspectedAt" TIMESTAMP(3) NOT NULL,
  "witness" TEXT,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Inspection_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Inspection_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Inspection_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Inspection_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "MachineRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Inspection_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Inspection_machineId_sequence_idx" ON "Inspection" ("machineId", "sequence");

CREATE TABLE "Permit" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "number" INTEGER NOT NULL,
  "machineId" TEXT NOT NULL,
  "revisionId" TEXT NOT NULL,
  "inspectionId" TEXT NOT NULL,
  "sheetId" TEXT NOT NULL,
  "firingPointId" TEXT NOT NULL,
  "bearing" DOUBLE PRECISION NOT NULL,
  "limits" TEXT NOT NULL,
  "conditions" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Permit_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Permit_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_revisionId_fkey" FOREIGN KEY ("revisionId") REFERENCES "MachineRevision" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_inspectionId_fkey" FOREIGN KEY ("inspectionId") REFERENCES "Inspection" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_sheetId_fkey" FOREIGN KEY ("sheetId") REFERENCES "HazardSheet" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_firingPointId_fkey" FOREIGN KEY ("firingPointId") REFERENCES "FiringPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Permit_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "Permit_contestId_number_key" ON "Permit" ("contestId", "number");
CREATE INDEX "Permit_machineId_sequence_idx" ON "Permit" ("machineId", "sequence");

CREATE TABLE "PermitWithdrawal" (
  "permitId" TEXT NOT NULL,
  "reason" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "PermitWithdrawal_pkey" PRIMARY KEY ("permitId"),
  CONSTRAINT "PermitWithdrawal_permitId_fkey" FOREIGN KEY ("permitId") REFERENCES "Permit" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "PermitWithdrawal_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE "MarkJudgement" (
  "id" TEXT NOT NULL,
  "fixId" TEXT NOT NULL,
  "byId" TEXT NOT NULL,
  "verdict" TEXT NOT NULL,
  "body" TEXT NOT NULL,
  "sequence" INTEGER,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "MarkJudgement_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "MarkJudgement_fixId_fkey" FOREIGN KEY ("fixId") REFERENCES "Fix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "MarkJudgement_fixId_byId_key" ON "MarkJudgement" ("fixId", "byId");

CREATE TRIGGER "Inspection_append_only" BEFORE UPDATE OR DELETE ON "Inspection"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE TRIGGER "Permit_append_only" BEFORE UPDATE OR DELETE ON "Permit"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE TRIGGER "PermitWithdrawal_append_only" BEFORE UPDATE OR DELETE ON "PermitWithdrawal"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();

CREATE TRIGGER "MarkJudgement_append_only" BEFORE UPDATE OR DELETE ON "MarkJudgement"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
