/**
 * The demo contest: a harvest fair, all invented, made through the same commands as any contest, so that its scorebook
 * is as good as any. Two rounds are shot, the third waits for its first entry. Its content is always the same; only
 * the sign-in codes are random.
 */
import { availableParallelism } from "node:os";
import type { Role } from "../../lib/api/contracts";
import {
  type Actor,
  addControlPoint,
  addDivision,
  addEntrant,
  addFeature,
  addFiringPoint,
  allSheets,
  type Call,
  declareRevision,
  enterMachine,
  makeBadge,
  placeMachine,
  planOrder,
  type Reply,
  recordFix,
  setAir,
  setMachineTimes,
} from "../../lib/contest";
import { createDemoContest } from "../../lib/contest/contests";
import { closeHazardQueue, hazardQueue } from "../../lib/contest/hazard-queue";
import type { Database } from "../../lib/db";
import { groundDirect } from "../../lib/earth";
import { clearDemo } from "./clearance";
import {
  AIR,
  CONTEST,
  DIVISIONS,
  ENTRANTS,
  FIRING_LINE,
  FIXES,
  type MeasuredShot,
  ORDER_RULES,
  TEAM_BADGE,
  TIMES,
} from "./content";
import { enterDemoTeam } from "./entries";
import { tellIncident } from "./incident";
import { CONTROL_POINTS, FEATURES, onSite } from "./site";

/** The last shot of the second round was measured so long ago, ms. */
const JUST_NOW = 4 * 60_000;

export interface SignIn {
  role: Role;
  label: string;
  code: string;
}

/** Makes the demo contest and gives back its sign-ins, whose codes are nowhere else. */
export async function loadDemo(db: Database): Promise<SignIn[]> {
  // Nobody else is served yet: every core may compute sheets.
  hazardQueue({ workers: availableParallelism() });
  try {
    return await load(db);
  } finally {
    await closeHazardQueue();
  }
}

async function load(db: Database): Promise<SignIn[]> {
  const slug = await freeSlug(db);
  const { contest, badge } = await createDemoContest(db, { ...CONTEST, slug });
  const contestId = contest.id;
  let writes = 0;
  const as = ({ id, role, label }: { id: string; role: Role; label: string }): (() => Call) => {
    const actor: Actor = { badgeId: id, role, label, contestId, contestSlug: slug, entrantId: null };
    return () => ({ db, actor, key: `demo ${slug} ${++writes}`.replaceAll(" ", "-").padEnd(24, "-") });
  };
  const organiser = as(badge);
  const signIns: SignIn[] = [badge];
  const inAYear = new Date(Date.now() + 365 * 24 * 3600_000).toISOString();
  const newBadge = async (body: { role: Role; label: string; entrantId?: string }) => {
    // There to be tried out, from any device and again and again.
    const made = await done(makeBadge(organiser(), slug, { ...body, endsAt: inAYear }, true));
    signIns.push(made);
    return made;
  };

  const safetyOfficer = as(await newBadge({ role: "safety-officer", label: "Safety officer" }));
  const judges = [
    as(await newBadge({ role: "judge", label: "Judge 1" })),
    as(await newBadge({ role: "judge", label: "Judge 2" })),
  ];
  await setAir(safetyOfficer(), slug, AIR);

  const firingPoints = new Map<number, string>();
  for (const [index, place] of FIRING_LINE.entries()) {
    const point = { ...onSite(place), number: index + 1, name: "" };
    firingPoints.set(index + 1, (await done(addFiringPoint(organiser(), slug, point))).id);
  }
  for (const feature of FEATURES) await addFeature(organiser(), slug, feature);
  for (const peg of CONTROL_POINTS) await addControlPoint(organiser(), slug, peg);

  const machines: { id: string; number: number }[] = [];
  const divisions = new Map<string, string>();
  for (const name of DIVISIONS)
    divisions.set(name, (await done(addDivision(organiser(), slug, { name }))).id);
  for (const { number, name, division, machine } of ENTRANTS) {
    const entrant = { number, name, divisionId: divisions.get(division) };
    const { id: entrantId } = await done(addEntrant(organiser(), slug, entrant));
    const { declaration, was } = machine;
    const entered = { entrantId, name: machine.name, declaration: was ?? declaration };
    const { id } = await done(enterMachine(organiser(), slug, entered));
    if (was) await declareRevision(organiser(), slug, id, { declaration, note: machine.change });
    machines.push({ id, number });
    const placement = { firingPointId: firingPoints.get(machine.firingPoint), bearing: machine.bearing };
    await placeMachine(organiser(), slug, id, placement);
    const times = TIMES[number];
    if (times) await setMachineTimes(organiser(), slug, id, { ...times, notBefore: null });
    if (number === TEAM_BADGE) await newBadge({ role: "team", label: name, entrantId });
  }
  await allSheets(db, contestId);

  const nominal = await nominalThrows(db, contestId);
  // The day began so that its third round is to come now, at the pace at which the first two were thrown.
  const { turns } = await done(
    planOrder(organiser(), slug, { rules: { ...ORDER_RULES, startAt: new Date().toISOString() } }),
  );
  const thrown = turns.filter(({ round }) => FIXES[round - 1]);
  const lasted = Math.max(...thrown.map(({ doneAt }) => Date.parse(doneAt ?? "")));
  const earlier = (at: string | null) =>
    new Date(Date.parse(at ?? "") - (lasted - Date.now()) - JUST_NOW).toISOString();
  for (const { shotId, round, entrantNumber, doneAt } of thrown) {
    const judge = judges[(entrantNumber + 1) % judges.length] ?? organiser;
    const shot = await db.shot.findUniqueOrThrow({ where: { id: shotId }, include: { firingPoint: true } });
    const asFix = (entry: MeasuredShot) =>
      fixOf(entry, shot.bearing, nominal.get(shot.machineId) ?? 0, shot.firingPoint);
    const entry = FIXES[round - 1]?.[entrantNumber];
    if (!entry) continue;
    const observedAt = earlier(doneAt);
    const fix = await done(recordFix(judge(), slug, shotId, { fix: asFix(entry.first), observedAt }));
    if (!entry.corrected) continue;
    const correction = { fix: asFix(entry.corrected), replacesId: fix.id, reason: entry.reason, observedAt };
    await recordFix(judges[0]?.() ?? judge(), slug, shotId, correction);
  }
  await tellIncident(judges[0] ?? organiser, slug, machines, bearingOf, nominal);
  await clearDemo(safetyOfficer, slug, machines);
  const [first] = ENTRANTS;
  const divisionId = divisions.get(first?.division ?? "");
  if (first && divisionId) await enterDemoTeam(organiser, slug, { divisionId, like: first.machine });
  const startAt = earlier(turns[0]?.expectedAt ?? null);
  const reason = "Round 3 begins: its times by the pace of the first two.";
  await planOrder(organiser(), slug, { rules: { ...ORDER_RULES, startAt }, reason });
  return signIns.map(({ role, label, code }) => ({ role, label, code }));
}

const done = async <T>(reply: Promise<Reply<T>>): Promise<T> => (await reply).answer;

/** A start that was cut off may have left half a demo behind: the next one is made beside it. */
async function freeSlug(db: Database): Promise<string> {
  for (let number = 1; ; number++) {
    const slug = number === 1 ? CONTEST.slug : `${CONTEST.slug}-${number}`;
    if (!(await db.contest.findUnique({ where: { slug } }))) return slug;
  }
}

const bearingOf = (number: number) =>
  ENTRANTS.find((entrant) => entrant.number === number)?.machine.bearing ?? 0;

/** The first-impact distance that each machine is meant to reach, m. */
async function nominalThrows(db: Database, contestId: string): Promise<Map<string, number>> {
  const machines = await db.machine.findMany({
    where: { contestId },
    include: { revisions: { orderBy: { number: "desc" }, take: 1, include: { sheets: true } } },
  });
  return new Map(
    machines.map((machine) => {
      const result = machine.revisions[0]?.sheets[0]?.result;
      if (!result) throw new Error(`${machine.name} has no hazard sheet: see the message above.`);
      return [machine.id, (JSON.parse(result) as { nominal: { distance: number } }).nominal.distance];
    }),
  );
}

/** What a judge would enter of a throw so far off the meant distance and bearing. */
function fixOf(
  entry: MeasuredShot,
  bearing: number,
  nominal: number,
  firingPoint: { latitude: number; longitude: number; height: number },
) {
  if (typeof entry === "string") return { outcome: entry };
  const distance = Math.round(nominal * entry.share * 100) / 100;
  const line = bearing + entry.aside;
  if (!entry.byPosition)
    return { outcome: "landed", method: "bearing-distance", bearing: line, distance } as const;
  const point = groundDirect(firingPoint, line, distance, firingPoint.height);
  const rounded = (degrees: number) => Math.round(degrees * 1e6) / 1e6;
  return {
    outcome: "landed",
    method: "position",
    latitude: rounded(point.latitude),
    longitude: rounded(point.longitude),
    accuracy: 3,
  } as const;
}
