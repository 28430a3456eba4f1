-- What a permit, an order or a rehearsal hangs on is a few acts among the thousands of entries of a day.

CREATE INDEX "ScorebookEntry_contestId_act_sequence_idx" ON "ScorebookEntry" ("contestId", "act", "sequence");
