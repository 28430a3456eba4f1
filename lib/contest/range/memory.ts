/**
 * What of a range this process knows and no table does: holds on their way to the disk, and when leases and posts were
 * last heard. Told to every instance by a flash; gone when the program stops, which lets a lease lapse.
 */
import type { RangeBrief } from "../../api/contracts";
import { type Database, flash, listenToFlashes } from "../../db";
import { tellRange } from "../../live";
import { type Hold, type RangeState, withHold } from "../../range";

interface Memory {
  /** Not known to be stored. */
  holds: Hold[];
  /** When what was last heard, ms, by `hot:…` and `post:…`. */
  beats: Map<string, number>;
  rehearsal: PlayedNow | null;
}

/** What is played, and when it was last heard of, ms. */
type PlayedNow = NonNullable<RangeBrief["rehearsal"]> & { at: number };

/** A rehearsal that was not heard of for so long has ended with the program that played it, ms. */
const PLAYED_LASTS = 15_000;

/** What is told to every instance: any of these. */
interface Told {
  hold?: Hold;
  beat?: { key: string; at: number };
  brief?: RangeBrief;
  rehearsal?: PlayedNow | null;
}

const shared = globalThis as typeof globalThis & {
  fairthrowRanges?: Map<string, Memory>;
  fairthrowRangesHeard?: { url: string | undefined; stop: () => void };
};
shared.fairthrowRanges ??= new Map();
const memories = shared.fairthrowRanges;

export function memoryOf(contestId: string): Memory {
  hearOthers();
  const memory = memories.get(contestId) ?? { holds: [], beats: new Map(), rehearsal: null };
  memories.set(contestId, memory);
  return memory;
}

function hearOthers(): void {
  const url = process.env.DATABASE_URL;
  if (shared.fairthrowRangesHeard?.url === url && shared.fairthrowRangesHeard) return;
  shared.fairthrowRangesHeard?.stop();
  const stop = listenToFlashes(({ contestId, content }) => hear(contestId, JSON.parse(content) as Told));
  shared.fairthrowRangesHeard = { url, stop };
}

export function forgetRanges(): void {
  memories.clear();
  shared.fairthrowRangesHeard?.stop();
  delete shared.fairthrowRangesHeard;
}

function hear(contestId: string, { hold, beat, brief, rehearsal }: Told): void {
  const memory = memoryOf(contestId);
  const { holds, beats } = memory;
  if (rehearsal !== undefined) memory.rehearsal = rehearsal;
  if (hold && !holds.some(({ id }) => id === hold.id)) holds.push(hold);
  if (beat) beats.set(beat.key, Math.max(beat.at, beats.get(beat.key) ?? 0));
  if (brief) tellRange(contestId, JSON.stringify(brief));
}

/** Tells every instance and every open page before it returns. */
export function tell(db: Database, contestId: string, told: Told): void {
  hearOthers();
  flash(db, { contestId, content: JSON.stringify(told) });
}

/** Null where none is played. */
export function playedNow(contestId: string, at: number): RangeBrief["rehearsal"] {
  const { rehearsal } = memoryOf(contestId);
  if (!rehearsal || Math.abs(at - rehearsal.at) > PLAYED_LASTS) return null;
  const { words, cue } = rehearsal;
  return { words, cue };
}

export const hotKey = (hot: string) => `hot:${hot}`;
export const postKey = (post: string, phone: string) => `post:${post}:${phone}`;

/** What is stored, with what was heard since; `at` for the holds that are not stored yet. */
export function withMemory(stored: RangeState, contestId: string, at: number): RangeState {
  const memory = memoryOf(contestId);
  memory.holds = memory.holds.filter(({ id }) => !stored.known.includes(id));
  const heard = withBeats(stored, contestId);
  return memory.holds.reduce((state, hold) => withHold(state, hold, Math.min(at, hold.at)).state, heard);
}

/** A beat that came after too long a silence was never kept. */
export function withBeats(stored: RangeState, contestId: string): RangeState {
  const { beats } = memoryOf(contestId);
  const { hot } = stored;
  const latest = (key: string, at: number) => Math.max(at, beats.get(key) ?? 0);
  return {
    ...stored,
    hot: hot && { ...hot, heardAt: latest(hotKey(hot.id), hot.heardAt) },
    clears: Object.fromEntries(
      Object.entries(stored.clears).map(([post, clear]) => [
        post,
        { ...clear, heardAt: latest(postKey(post, clear.phone), clear.heardAt) },
      ]),
    ),
  };
}
