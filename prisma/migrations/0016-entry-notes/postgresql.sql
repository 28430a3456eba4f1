-- What the team says of its machine as it enters it: the note of its first revision.

ALTER TABLE "TeamEntry" ADD COLUMN "note" TEXT NOT NULL DEFAULT '';
