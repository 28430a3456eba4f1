-- The firing order of the day: what it is planned by, when each turn was told to begin, and how long machines take.

CREATE TABLE "FiringOrder" (
  "contestId" TEXT NOT NULL,
  "rules" TEXT NOT NULL,
  "geometry" TEXT NOT NULL,
  "plannedAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "FiringOrder_pkey" PRIMARY KEY ("contestId"),
  CONSTRAINT "FiringOrder_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE "Turn" (
  "shotId" TEXT NOT NULL,
  "stage" INTEGER NOT NULL,
  "place" INTEGER NOT NULL,
  "toldAt" TIMESTAMP(3),
  "passedOver" TEXT,
  CONSTRAINT "Turn_pkey" PRIMARY KEY ("shotId"),
  CONSTRAINT "Turn_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

ALTER TABLE "Machine" ADD COLUMN "rearm" DOUBLE PRECISION;
ALTER TABLE "Machine" ADD COLUMN "live" DOUBLE PRECISION;
ALTER TABLE "Machine" ADD COLUMN "notBefore" TIMESTAMP(3);
