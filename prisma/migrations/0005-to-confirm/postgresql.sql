-- Entries that a revoked badge delivers, kept apart until an official has decided about each.

CREATE TABLE "HeldFix" (
  "id" TEXT NOT NULL,
  "shotId" TEXT NOT NULL,
  "outcome" TEXT NOT NULL,
  "method" TEXT,
  "input" TEXT NOT NULL,
  "located" TEXT,
  "flags" TEXT NOT NULL,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "badgeId" TEXT NOT NULL,
  "replacesId" TEXT,
  "reason" TEXT,
  "witness" TEXT,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
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
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "HeldDecision_pkey" PRIMARY KEY ("heldFixId"),
  CONSTRAINT "HeldDecision_heldFixId_fkey" FOREIGN KEY ("heldFixId") REFERENCES "HeldFix" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "HeldDecision_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TRIGGER "HeldFix_append_only" BEFORE UPDATE OR DELETE ON "HeldFix"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
CREATE TRIGGER "HeldDecision_append_only" BEFORE UPDATE OR DELETE ON "HeldDecision"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
