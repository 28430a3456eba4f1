/** While a range is hot somebody must be heard, and what it went hot on must stand: else it goes on hold by itself. */
import type { RangeBrief } from "../../api/contracts";
import type { Database } from "../../db";
import { settle } from "../../range";
import type { ContestRow } from "../find";
import { briefOf } from "./brief";
import { factsOf } from "./facts";
import { programHold } from "./hold";
import { forgetRanges } from "./memory";
import { rangeNow } from "./store";

const EVERY = 1000; // ms

const shared = globalThis as typeof globalThis & { fairthrowRangeWatches?: Map<string, NodeJS.Timeout> };
shared.fairthrowRangeWatches ??= new Map();
const watches = shared.fairthrowRangeWatches;

/** Looks every second, for as long as the range is hot. */
export function watchRange(db: Database, contest: ContestRow): void {
  if (watches.has(contest.id)) return;
  let looking = false;
  const timer = setInterval(async () => {
    if (looking) return;
    looking = true;
    const hot = await look(db, contest).catch((error) => {
      console.error("The range could not be looked at.", error);
      return true;
    });
    looking = false;
    if (hot) return;
    clearInterval(timer);
    watches.delete(contest.id);
  }, EVERY);
  watches.set(contest.id, timer.unref());
}

/** Holds what must not go on; whether the range is hot still. */
async function look(db: Database, contest: ContestRow): Promise<boolean> {
  const before = await rangeNow(db, contest.id);
  if (!before.hot) return false;
  const facts = await factsOf(db, contest, [before.hot.machineId]);
  const at = Date.now();
  const after = settle(before, facts, at);
  const [hold] = after.holds.filter(({ id }) => !before.holds.some((each) => each.id === id));
  if (hold) await programHold(db, contest.id, hold);
  return after.hot !== null;
}

/** Before the database is closed: nothing is looked at, heard or remembered any more. */
export function closeRanges(): void {
  for (const timer of watches.values()) clearInterval(timer);
  watches.clear();
  forgetRanges();
}

/** For a page that comes now. A lease that nobody has renewed, as after a restart, ends here. */
export async function rangeBriefNow(db: Database, contestId: string): Promise<RangeBrief> {
  const contest = await db.contest.findUniqueOrThrow({ where: { id: contestId } });
  if (await look(db, contest)) watchRange(db, contest);
  const facts = await factsOf(db, contest, []);
  const at = Date.now();
  return briefOf(contestId, await rangeNow(db, contestId, at), facts, at);
}
