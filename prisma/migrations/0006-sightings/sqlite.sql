-- Spotters' sightings of where shots landed.

CREATE TABLE "Sighting" (
  "id" TEXT NOT NULL,
  "shotId" TEXT NOT NULL,
  "controlPointId" TEXT NOT NULL,
  "bearing" REAL,
  "north" TEXT NOT NULL,
  "uncertainty" REAL NOT NULL,
  "way" TEXT NOT NULL,
  "observedAt" DATETIME NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" DATETIME NOT NULL,
  CONSTRAINT "Sighting_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Sighting_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Sighting_controlPointId_fkey" FOREIGN KEY ("controlPointId") REFERENCES "ControlPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Sighting_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Sighting_shotId_idx" ON "Sighting" ("shotId");

CREATE TRIGGER "Sighting_no_update" BEFORE UPDATE ON "Sighting"
BEGIN SELECT RAISE(ABORT, 'Sighting is append-only: add a new row'); END;
CREATE TRIGGER "Sighting_no_delete" BEFORE DELETE ON "Sighting"
BEGIN SELECT RAISE(ABORT, 'Sighting is append-only: add a new row'); END;
