-- Who signed in, when, on what.

CREATE TABLE "SignIn" (
  "id" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "device" TEXT NOT NULL,
  "at" DATETIME NOT NULL,
  CONSTRAINT "SignIn_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SignIn_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "SignIn_badgeId_at_idx" ON "SignIn" ("badgeId", "at");

CREATE TRIGGER "SignIn_no_update" BEFORE UPDATE ON "SignIn"
BEGIN SELECT RAISE(ABORT, 'SignIn is append-only: add a new row'); END;
CREATE TRIGGER "SignIn_no_delete" BEFORE DELETE ON "SignIn"
BEGIN SELECT RAISE(ABORT, 'SignIn is append-only: add a new row'); END;
