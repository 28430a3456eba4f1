/** What every open page shows of the range, told at once. */
import type { RangeBrief } from "../../api/contracts";
import type { Database } from "../../db";
import type { ContestRow } from "../find";
import { briefOf } from "./brief";
import { factsOf } from "./facts";
import { tell } from "./memory";
import { rangeNow } from "./store";

/** After a change: every page hears of it before the scorebook's own notice. */
export async function tellNow(db: Database, contest: ContestRow): Promise<RangeBrief> {
  const facts = await factsOf(db, contest, []);
  const at = Date.now();
  const brief = briefOf(contest.id, await rangeNow(db, contest.id, at), facts, at);
  tell(db, contest.id, { brief });
  return brief;
}
