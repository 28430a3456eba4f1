/** The last hazard sheet that was worked out for the yard, with what it answers: for this page and its siblings. */
import { z } from "zod";
import { keep, kept } from "@/app/_ui/browser-memory";
import { CODE_VERSION } from "@/lib/throw/version";
import type { ZoneAnswer, ZoneQuestion } from "./question";

const KEY = "fairthrow-yard-zone";

/** Everything that decides the answer. */
export const zoneKey = (question: ZoneQuestion): string => `${CODE_VERSION} ${JSON.stringify(question)}`;

/** As deep as what is drawn needs it: the rest was written by this program. */
const reach = z.array(z.number()).length(360);
const keptSchema = z.object({
  key: z.string(),
  answer: z.looseObject({
    sheet: z.looseObject({
      kind: z.string(),
      exclusion: z.looseObject({ reach, forward: z.number(), backward: z.number(), side: z.number() }),
      worst: z.looseObject({
        forward: z.looseObject({ distance: z.number() }),
        backward: z.looseObject({ distance: z.number() }),
      }),
      apex: z.number(),
      assumptions: z.array(z.string()),
      notModelled: z.array(z.string()),
      warnings: z.array(z.looseObject({ code: z.string(), text: z.string() })),
    }),
    given: z.array(z.string()),
    anyWay: reach.nullable(),
  }),
});

export interface KeptZone {
  key: string;
  answer: ZoneAnswer;
}

export const keepZone = (zone: KeptZone): boolean => keep(KEY, JSON.stringify(zone));

/** Null where none is kept, or where it cannot be read: it is worked out anew then. */
export function keptZone(): KeptZone | null {
  try {
    const read = keptSchema.safeParse(JSON.parse(kept(KEY) ?? "null"));
    return read.success ? (read.data as unknown as KeptZone) : null;
  } catch {
    return null;
  }
}
