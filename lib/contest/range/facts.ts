/** What of the site, the zones and the permits the range hangs on. */
import type { ZoneProperties, Zones } from "../../api/contracts";
import { lackOfSheet } from "../../api/contracts/machines";
import type { Database, DatabaseTransaction } from "../../db";
import type { Facts, Firing } from "../../range";
import { ruleOf } from "../../zones";
import { featureInfo } from "../features";
import type { ContestRow } from "../find";
import { permitStanding } from "../permits";
import { ACTS, canonical, sha256 } from "../scorebook";
import { SharedReading } from "../shared-reading";
import { contestZones } from "../zones";

const actsOf = (...kinds: string[]) =>
  Object.entries(ACTS).flatMap(([act, kind]) => (kinds.includes(kind) ? [act] : []));
/** Acts of the range itself: they change no zone, no post and no permit. */
const OWN = actsOf("range");
/** Acts that change no zone and no post, though perhaps a permit: entries come by the dozen while a range is hot. */
const NO_GROUND = actsOf("range", "fix", "sighting", "ruling", "round", "permit", "papers", "badge");
/** A wind expires without an entry: zones are laid anew after this, ms. */
const ZONES_LAST = 15_000;

export interface RangeFacts extends Facts {
  /** Of the newest entry that they hang on. */
  sequence: number;
  zones: ReadonlyMap<string, ZoneProperties>;
}

/** Sequence of the newest entry that is not the range's own. */
export const factsSequence = (db: Database | DatabaseTransaction, contestId: string) =>
  newestBut(db, contestId, OWN);

async function newestBut(
  db: Database | DatabaseTransaction,
  contestId: string,
  acts: string[],
): Promise<number> {
  const newest = await db.scorebookEntry.findFirst({
    where: { contestId, act: { notIn: acts } },
    orderBy: { sequence: "desc" },
    select: { sequence: true },
  });
  return newest?.sequence ?? 0;
}

/** `firing`: the machines that are asked about, each with its list and its permit as it is now. */
export async function factsOf(
  db: Database,
  contest: ContestRow,
  firing: readonly (string | undefined)[],
): Promise<RangeFacts> {
  // Read first: what comes while the rest is read is newer than what was read.
  const sequence = await factsSequence(db, contest.id);
  const { zones, posts } = await groundOf(db, contest);
  const known = new Map(zones.features.map(({ id, properties }) => [id, properties]));
  const asked = [...new Set(firing)].flatMap((id) => (id && known.has(id) ? [id] : []));
  const of = await Promise.all(
    asked.map(async (id): Promise<[string, Firing]> => {
      const standing = await permitStanding(db, contest.id, id);
      const zone = zones.features.find((each) => each.id === id) as Zones["features"][number];
      return [id, firingOf(zone, standing.stands ? [] : standing.reasons)];
    }),
  );
  return {
    sequence,
    zones: known,
    posts: posts.map(({ id, name }) => ({ id, name })),
    machines: zones.features.map(({ id, properties }) => ({
      id,
      name: properties.machineName,
      ...heldBy(properties),
    })),
    firing: Object.fromEntries(of),
  };
}

interface Laid {
  sequence: number;
  zones: Zones;
  posts: { id: string; name: string }[];
}
const shared = globalThis as typeof globalThis & {
  fairthrowRangeGround?: Map<string, { until: number; laid: Laid }>;
};
shared.fairthrowRangeGround ??= new Map();
const laidBefore = shared.fairthrowRangeGround;
const reading = new SharedReading<Laid>();

/** Laid anew only when something that it hangs on has changed. */
async function groundOf(db: Database, contest: ContestRow): Promise<Laid> {
  const sequence = await newestBut(db, contest.id, NO_GROUND);
  const before = laidBefore.get(contest.id);
  if (before && before.laid.sequence === sequence && before.until > Date.now()) return before.laid;
  return reading.read(contest.id, async () => {
    const from = await newestBut(db, contest.id, NO_GROUND);
    const [zones, features] = await Promise.all([
      contestZones(db, contest.slug, { wait: 0 }),
      db.siteFeature.findMany({
        where: { contestId: contest.id, kind: "post", retired: false },
        orderBy: { name: "asc" },
      }),
    ]);
    const laid = { sequence: from, zones, posts: features.map(featureInfo) };
    laidBefore.set(contest.id, { until: Date.now() + ZONES_LAST, laid });
    return laid;
  });
}

/** Who and what with people lies in a zone. */
function heldBy(zone: ZoneProperties): { holds: string[] | null; reaches: string[] } {
  const reaches = zone.standClear.flatMap(({ machines }) => machines.map(({ machineId }) => machineId));
  if (zone.exclusion === null) return { holds: null, reaches };
  const cleared = zone.standClear.filter(({ what, machines }) => what === "feature" || machines.length > 0);
  const against = zone.conflicts.filter(({ inConflict }) => inConflict);
  return { holds: [...new Set([...cleared, ...against].map(({ name }) => name))], reaches };
}

function firingOf({ geometry, properties }: Zones["features"][number], permit: string[]): Firing {
  const isLeft = ({ kind, id }: ZoneProperties["standClear"][number]) =>
    kind === "post" &&
    (properties.conflicts.find(({ featureId }) => featureId === id)?.rule ?? ruleOf({ kind: "post" })) ===
      "hot";
  const list = properties.standClear
    .filter((each) => !isLeft(each))
    .map(({ what, id, name, kind, machines }) => ({
      key: `${what}:${id}`,
      name: [
        machines.length > 0 ? `${name}, ${machines.map(({ machineName }) => machineName).join(", ")}` : name,
        ...(kind === "crew-shelter" ? ["under cover or empty"] : []),
        ...(kind === "path" || kind === "road" ? ["closed and watched"] : []),
      ].join(": "),
    }));
  return {
    list,
    version: sha256(canonical({ geometry, list })).slice(0, 16),
    mustLeave: properties.standClear.filter(isLeft).map(({ id }) => id),
    noZone: properties.exclusion === null ? lackOfSheet(properties) : null,
    permit,
  };
}
