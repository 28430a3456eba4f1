-- The firing order of the day: what it is planned by, when each turn was told to begin, and how long machines take.

CREATE TABLE "FiringOrder" (
  "contestId" TEXT NOT NULL PRIMARY KEY,
  "rules" TEXT NOT NULL,
  "geometry" TEXT NOT NULL,
  "plannedAt" DATETIME NOT NULL,
  CONSTRAINT "FiringOrder_contestId_fkey" FOREIGN KEY ("contestId") REFERENCES "Contest" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

CREATE TABLE "Turn" (
  "shotId" TEXT NOT NULL PRIMARY KEY,
  "stage" INTEGER NOT NULL,
  "place" INTEGER NOT NULL,
  "toldAt" DATETIME,
  "passedOver" TEXT,
  CONSTRAINT "Turn_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);

ALTER TABLE "Machine" ADD COLUMN "rearm" REAL;
ALTER TABLE "Machine" ADD COLUMN "live" REAL;
ALTER TABLE "Machine" ADD COLUMN "notBefore" DATETIME;
