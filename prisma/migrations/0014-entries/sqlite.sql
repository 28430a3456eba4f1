-- Teams enter themselves: invitations, what teams say of themselves, their people and photographs.

CREATE TABLE "EntryLink" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "tokenHash" TEXT NOT NULL,
  "endsAt" DATETIME NOT NULL,
  "most" INTEGER NOT NULL,
  "keepDays" INTEGER NOT NULL,
  "closedAt" DATETIME,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "EntryLink_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "EntryLink_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "EntryLink_tokenHash_key" ON "EntryLink" ("tokenHash");
CREATE INDEX "EntryLink_contestId_idx" ON "EntryLink" ("contestId");

CREATE TABLE "TeamEntry" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "linkId" TEXT NOT NULL,
  "secretHash" TEXT NOT NULL,
  "state" TEXT NOT NULL,
  "version" INTEGER NOT NULL DEFAULT 1,
  "team" TEXT NOT NULL,
  "divisionId" TEXT,
  "machineName" TEXT NOT NULL,
  "declaration" TEXT,
  "ownNumbers" BOOLEAN NOT NULL DEFAULT false,
  "insurance" TEXT,
  "answer" TEXT,
  "entrantId" TEXT,
  "machineId" TEXT,
  "sentAt" DATETIME,
  "decidedAt" DATETIME,
  "erasedAt" DATETIME,
  "createdAt" DATETIME NOT NULL,
  "updatedAt" DATETIME NOT NULL,
  CONSTRAINT "TeamEntry_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "TeamEntry_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "TeamEntry_linkId_fkey" FOREIGN KEY ("linkId") REFERENCES "EntryLink" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "TeamEntry_divisionId_fkey" FOREIGN KEY ("divisionId") REFERENCES "Division" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "TeamEntry_entrantId_fkey" FOREIGN KEY ("entrantId") REFERENCES "Entrant" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "TeamEntry_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE UNIQUE INDEX "TeamEntry_secretHash_key" ON "TeamEntry" ("secretHash");
CREATE INDEX "TeamEntry_contestId_idx" ON "TeamEntry" ("contestId");
CREATE INDEX "TeamEntry_linkId_idx" ON "TeamEntry" ("linkId");

CREATE TABLE "EntryPerson" (
  "id" TEXT NOT NULL,
  "entryId" TEXT NOT NULL,
  "position" INTEGER NOT NULL,
  "name" TEXT NOT NULL,
  "contact" TEXT NOT NULL,
  "captain" BOOLEAN NOT NULL,
  "ofAge" BOOLEAN,
  "guardianName" TEXT NOT NULL,
  "guardianContact" TEXT NOT NULL,
  "consentWay" TEXT NOT NULL,
  "consentText" TEXT,
  "consentAt" DATETIME,
  "consentBadgeId" TEXT,
  CONSTRAINT "EntryPerson_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "EntryPerson_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "TeamEntry" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "EntryPerson_consentBadgeId_fkey" FOREIGN KEY ("consentBadgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "EntryPerson_entryId_idx" ON "EntryPerson" ("entryId");

CREATE TABLE "EntryPhotograph" (
  "id" TEXT NOT NULL,
  "entryId" TEXT NOT NULL,
  "subject" TEXT NOT NULL,
  "width" INTEGER NOT NULL,
  "height" INTEGER NOT NULL,
  "size" INTEGER NOT NULL,
  "content" BLOB NOT NULL,
  "sha256" TEXT NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "EntryPhotograph_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "EntryPhotograph_entryId_fkey" FOREIGN KEY ("entryId") REFERENCES "TeamEntry" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "EntryPhotograph_entryId_idx" ON "EntryPhotograph" ("entryId");
