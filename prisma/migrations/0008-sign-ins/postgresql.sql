-- Who signed in, when, on what.

CREATE TABLE "SignIn" (
  "id" TEXT NOT NULL,
  "badgeId" TEXT NOT NULL,
  "device" TEXT NOT NULL,
  "at" TIMESTAMP(3) NOT NULL,
  CONSTRAINT "SignIn_pkey" PRIMARY KEY ("id"),
  CONSTRAINT "SignIn_badgeId_fkey" FOREIGN KEY ("badgeId") REFERENCES "Badge" ("id") ON DELETE RESTRICT ON UPDATE CASCADE
);
CREATE INDEX "SignIn_badgeId_at_idx" ON "SignIn" ("badgeId", "at");

CREATE TRIGGER "SignIn_append_only" BEFORE UPDATE OR DELETE ON "SignIn"
  FOR EACH ROW EXECUTE FUNCTION "append_only"();
