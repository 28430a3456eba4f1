-- What the range is now, and who is downrange.

CREATE TABLE "RangeState" (
  "contestId" TEXT NOT NULL,
  "body" TEXT NOT NULL,
  "updatedAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "RangeState_pkey" PRIMARY KEY ("contestId"),
  CONSTRAINT "RangeState_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE "Tag" (
  "id" TEXT NOT NULL,
  "contestId" TEXT NOT NULL,
  "name" TEXT,
  "number" TEXT,
  "machineId" TEXT,
  "outAt" TIMESTAMP(3) NOT NULL,
  "inAt" TIMESTAMP(3),
  "outBadgeId" TEXT NOT NULL,
  "inBadgeId" TEXT,
  CONSTRAINT "Tag_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Tag_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Tag_machineId_fkey" FOREIGN KEY ("machineId") REFERENCES "Machine" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Tag_outBadgeId_fkey" FOREIGN KEY ("outBadgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Tag_inBadgeId_fkey" FOREIGN KEY ("inBadgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Tag_contestId_outAt_idx" ON "Tag" ("contestId", "outAt");
