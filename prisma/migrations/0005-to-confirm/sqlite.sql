-- Entries that a revoked badge delivers, kept apart until an official has decided about each.

CREATE TABLE "HeldFix" (
  "id" TEXT NOT NULL,
  "shotId" TEXT NOT NULL,
  "outcome" TEXT NOT NULL,
  "method" TEXT,
  "input" TEXT NOT NULL,
  "located" TEXT,
  "flags" TEXT NOT NULL,
  "observedAt" DATETIME NOT NULL,
  "badgeId" TEXT NOT NULL,
  "replacesId" TEXT,
  "reason" TEXT,
  "witness" TEXT,
  "sequence" INTEGER NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "HeldFix_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "HeldFix_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "HeldFix_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "HeldFix_replacesId_fkey" FOREIGN KEY ("replacesId") REFERENCES "Fix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "HeldFix_shotId_idx" ON "HeldFix" ("shotId");
CREATE INDEX "HeldFix_badgeId_idx" ON "HeldFix" ("badgeId");

CREATE TABLE "HeldDecision" (
  "heldFixId" TEXT NOT NULL,
  "confirmed" BOOLEAN NOT NULL,
  "reason" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "HeldDecision_pkey" PRIMARY KEY ("heldFixId"),
  CONSTRAINT "HeldDecision_heldFixId_fkey" FOREIGN KEY ("heldFixId") REFERENCES "HeldFix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "HeldDecision_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TRIGGER "HeldFix_no_update" BEFORE UPDATE ON "HeldFix"
BEGIN SELECT RAISE(ABORT, 'HeldFix is append-only: add a new row'); END;
CREATE TRIGGER "HeldFix_no_delete" BEFORE DELETE ON "HeldFix"
BEGIN SELECT RAISE(ABORT, 'HeldFix is append-only: add a new row'); END;
CREATE TRIGGER "HeldDecision_no_update" BEFORE UPDATE ON "HeldDecision"
BEGIN SELECT RAISE(ABORT, 'HeldDecision is append-only: add a new row'); END;
CREATE TRIGGER "HeldDecision_no_delete" BEFORE DELETE ON "HeldDecision"
BEGIN SELECT RAISE(ABORT, 'HeldDecision is append-only: add a new row'); END;
