-- Spotters' sightings of where shots landed.

CREATE TABLE "Sighting" (
  "id" TEXT NOT NULL,
  "shotId" TEXT NOT NULL,
  "controlPointId" TEXT NOT NULL,
  "bearing" DOUBLE PRECISION,
  "north" TEXT NOT NULL,
  "uncertainty" DOUBLE PRECISION NOT NULL,
  "way" TEXT NOT NULL,
  "observedAt" TIMESTAMP(3) NOT NULL,
  "badgeId" TEXT NOT NULL,
  "sequence" INTEGER NOT NULL,
  "createdAt" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "Sighting_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "Sighting_shotId_fkey" FOREIGN KEY ("shotId") REFERENCES "Shot" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Sighting_controlPointId_fkey" FOREIGN KEY ("controlPointId") REFERENCES "ControlPoint" ("id") ON DELETE RESTRICT ON UPDATE CASCADE,
  CONSTRAINT "Sighting_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "Sighting_shotId_idx" ON "Sighting" ("shotId");

CREATE TRIGGER "Sighting_append_only" BEFORE UPDATE OR DELETE ON "Sighting"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
