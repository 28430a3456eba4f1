/** The worst throws over the whole box of machines that a declaration stands for, and which machine made each. */
import { type Case, ceilingFor, workOut } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import type { HazardSheet, WorstThrow } from "../contracts/sheet";
import { type Box, boxesOf, cornerOf, framesOf, requestAt } from "./box";
import type { Ceiling } from "./ceiling";
import { type Aim, QUICK, QuickJudge } from "./quick";
import { DECLARED, type Found, worstThrow } from "./scan";
import { BoxSearch, CLIMBED, type Climbed, type Search } from "./search";
import { steepParameters } from "./sensitivity";

/** What the search may cost, µs of the computer the costs of quick.ts were measured on. */
const COST = 1.6e6;
const FEWEST = 450;
/** Along the border of striking the ground, where some machines of the box do and others just miss it: as COST and MOST. */
const BORDER_COST = 0.6e6;
const MOST_BORDER = 3000;
const MOST = 1600;
/** Share of the machines tried that survey the boxes; the others climb. */
const SURVEYED = 0.55;
/** A box whose best at an aim lies below this share of the best of all is not climbed for it. */
const HOPEFUL = 0.9;
/** A search that climbed to its end may have missed this share… */
const LEAST_ALLOWANCE = 0.002;
const ROUGH_ALLOWANCE = 0.004;
/** Where half a percent moves the worst by more than 3 %, narrow peaks are easily missed: more is tried and admitted. */
const STEEP_ALLOWANCE = 0.01;
const STEEP_BUDGET = 1.25;
/** Machines that just miss the ground throw as nothing around them does: they are climbed longer… */
const GRAZING_CLIMB = 1.5;
/** …and this share of what they throw beyond all that was foretold may be missing still. */
const OF_SURPRISE = 0.2;
/** …and this share of what it still gained at the last, but never more than the most. */
const OF_LATE_GAIN = 0.35;
const MOST_ALLOWANCE = 0.03;
/** A box whose best is nearer than this to the best of all is worked out too: the quick judge errs by 0.1 %. */
const RIVAL = 0.99;
/** Below this share of what the quick judge saw, the exact swing has taken another way. */
const JUDGED = 0.985;

/** What the search of a box may have missed of each throw, as a share. */
export type Allowances = Record<"forward" | "backward" | "firstForward" | "firstBackward", number>;
export const EXACT: Allowances = { forward: 0, backward: 0, firstForward: 0, firstBackward: 0 };

export interface WorkedCase {
  worked: Case;
  found: Found;
  allowances: Allowances;
}

export type Throws = Pick<HazardSheet["worst"], "forward" | "backward" | "firstPass">;

export interface WorstFound {
  /** The machine exactly as declared, on its wheels where it has them. */
  declared: Case;
  /** Every machine that made a worst throw, a highest apex or a largest energy, with the declared one. */
  cases: WorkedCase[];
  worst: Throws;
  ceiling: Ceiling;
  sensitive: HazardSheet["worst"]["sensitive"];
  varied: HazardSheet["search"]["varied"];
  machines: number;
  /** What the zone is stretched by: the largest allowance of the throws that it counts. */
  allowance: number;
}

/** @throws CannotThrow when the declared machine cannot be worked out */
export function findWorst(request: HazardRequest, onProgress: (done: number) => void = () => {}): WorstFound {
  const { hangUp } = request.policy ?? { hangUp: true };
  const frames = framesOf(request);
  const declaredFrame = frames[frames.length - 1];
  const declared = workOut(request, declaredFrame);
  const sensitive = steepParameters(request, frames);
  const boxes = boxesOf(
    request,
    sensitive.map(({ parameter }) => parameter),
  );
  const steep = sensitive.length > 0;
  const budget = budgetOf(request, boxes, steep);
  const searches = searchAll(boxes, budget, hangUp, onProgress);
  const cases: WorkedCase[] = [
    { worked: declared, found: { ...DECLARED, frame: declaredFrame }, allowances: EXACT },
  ];
  for (const { box, search } of searches) cases.push(...finalists(box, search, searches, steep));
  const main = searches[0];
  return {
    declared,
    cases,
    worst: worstOf(cases),
    ceiling: boxes.map(ceilingOver).reduce((a, b) => (b.distance > a.distance ? b : a), declared.ceiling),
    sensitive,
    varied: main.box.sides
      .map(({ name, low, high }) => ({
        parameter: name,
        low,
        high,
        change: main.search.sensitivity[name] ?? 0,
      }))
      .sort((a, b) => b.change - a.change),
    machines: searches.reduce((sum, { search }) => sum + search.tried, 0),
    allowance: Math.max(
      ...searches.flatMap(({ box, search }) =>
        CLIMBED.filter((aim) => aim !== "clearance" && (hangUp || aim.startsWith("first"))).map((aim) =>
          allowanceOf(search, aim, box, steep),
        ),
      ),
    ),
  };
}

/** Surveys every box, then climbs where a box can still hold the worst of an aim. */
function searchAll(
  boxes: readonly Box[],
  { machines: budget, border }: Budget,
  hangUp: boolean,
  onProgress: (done: number) => void,
): { box: Box; search: Search }[] {
  const counts = boxes.map(() => 0);
  const searches = boxes.map((box, i) => {
    const onTried = (tried: number) => {
      counts[i] = tried;
      if (tried % 16 === 0) onProgress(Math.min(1, counts.reduce((a, b) => a + b, 0) / budget));
    };
    return new BoxSearch(box, hangUp, onTried);
  });
  for (const search of searches) search.survey(Math.round((SURVEYED * budget) / boxes.length));
  const surveyed = searches.map((search) => search.result().best);
  const aimsOf = surveyed.map((best) =>
    CLIMBED.filter((aim) => {
      // What misses the ground is known by now, and its throws are climbed for themselves.
      if (aim === "clearance") return false;
      const most = Math.max(...surveyed.map((other) => other[aim]?.value ?? 0));
      return (best[aim]?.value ?? 0) >= HOPEFUL * most;
    }),
  );
  const climbs = aimsOf.reduce((sum, aims) => sum + aims.length, 0);
  const grazes = searches.some((search) => search.result().grazes);
  const left = (grazes ? GRAZING_CLIMB : 1) * (1 - SURVEYED) * budget;
  searches.forEach((search, i) => {
    search.climb(aimsOf[i], Math.round((left * aimsOf[i].length) / climbs));
    if (search.result().grazes) search.alongBorder(aimsOf[i], Math.round(border / boxes.length));
  });
  return boxes.map((box, i) => ({ box, search: searches[i].result() }));
}

/** How many machines may be tried in all boxes together, and how many more along the border of striking the ground. */
interface Budget {
  machines: number;
  border: number;
}

function budgetOf(request: HazardRequest, boxes: readonly Box[], steep: boolean): Budget {
  const judge = new QuickJudge(true);
  judge.judgeRequest(request, boxes[0].frame);
  const many = Math.sqrt(boxes.length);
  const machines = Math.max(FEWEST * many, ((steep ? STEEP_BUDGET : 1) * COST) / judge.cost);
  return {
    machines: Math.round(Math.min(MOST * many, machines)),
    border: Math.round(Math.min(MOST_BORDER * many, BORDER_COST / judge.cost)),
  };
}

/** The machines of one box that are best of all boxes at some aim, worked out with care. */
function finalists(
  box: Box,
  search: Search,
  all: readonly { search: Search }[],
  steep: boolean,
): WorkedCase[] {
  const cases = new Map<string, WorkedCase>();
  const allowances = Object.fromEntries(
    Object.keys(EXACT).map((aim) => [aim, allowanceOf(search, aim as Aim, box, steep)]),
  ) as Allowances;
  const work = (point: Float64Array, quick: boolean): Case => {
    const key = `${point.join()} ${quick}`;
    const known = cases.get(key);
    if (known) return known.worked;
    const worked = workOut(requestAt(box, point), box.frame, quick ? QUICK.accuracy : undefined);
    cases.set(key, {
      worked,
      found: { corner: cornerOf(box, point), frame: box.frame, load: box.load },
      allowances,
    });
    return worked;
  };
  for (const aim of Object.keys(search.best) as Aim[]) {
    const best = aim === "clearance" ? null : search.best[aim];
    const most = Math.max(...all.map((other) => other.search.best[aim]?.value ?? 0));
    if (!best || best.value < RIVAL * most) continue;
    const worked = work(best.point, false);
    // After a graze the least error decides where it goes on: a neighbour within it throws as the quick judge saw.
    const climbed = CLIMBED.find((each) => each === aim);
    const neighbours = box.sides.length > 0;
    if (neighbours && climbed && reachOf(worked, climbed) < JUDGED * best.value) {
      work(best.point, true);
    }
  }
  return [...cases.values()];
}

function reachOf({ scan }: Case, aim: Climbed): number {
  const pass = aim.startsWith("first") ? scan.firstPass : scan;
  return (aim.toLowerCase().endsWith("forward") ? pass.forward : pass.backward)?.distance ?? 0;
}

function allowanceOf(search: Search, aim: Aim, box: Box, steep: boolean): number {
  if (box.sides.length === 0) return 0;
  const climbed = CLIMBED.find((each) => each === aim);
  if (!climbed) return LEAST_ALLOWANCE;
  const rough = steep ? STEEP_ALLOWANCE : ROUGH_ALLOWANCE;
  const least = search.rough.has(climbed) ? rough : LEAST_ALLOWANCE;
  const surprise = search.grazes && !steep ? OF_SURPRISE * search.surprise[climbed] : 0;
  return Math.min(MOST_ALLOWANCE, least + surprise + OF_LATE_GAIN * search.lateGain[climbed]);
}

/** The highest ceiling of a box: every side at the end that raises it, taken one after the other. */
function ceilingOver(box: Box): Ceiling {
  const point = new Float64Array(box.sides.length);
  let best = ceilingFor(requestAt(box, point));
  for (let i = 0; i < point.length; i++) {
    let at = 0;
    for (const end of [-1, 1]) {
      point[i] = end;
      const request = requestAt(box, point);
      if (refusals(request).length > 0) continue;
      const ceiling = ceilingFor(request);
      if (ceiling.distance <= best.distance) continue;
      best = ceiling;
      at = end;
    }
    point[i] = at;
  }
  return best;
}

const farther = (a: WorstThrow, b: WorstThrow) => (b.distance > a.distance ? b : a);

/** The farthest throws of several machines, each with where it was found. */
export function worstOf(cases: readonly WorkedCase[]): Throws {
  const each = cases.map(({ worked: { scan }, found, allowances }) => ({
    forward: worstThrow(scan.forward, found, allowances.forward),
    backward: worstThrow(scan.backward, found, allowances.backward),
    firstPass: {
      forward: worstThrow(scan.firstPass.forward, found, allowances.firstForward),
      backward: worstThrow(scan.firstPass.backward, found, allowances.firstBackward),
    },
  }));
  return each.reduce((a, b) => ({
    forward: farther(a.forward, b.forward),
    backward: farther(a.backward, b.backward),
    firstPass: {
      forward: farther(a.firstPass.forward, b.firstPass.forward),
      backward: farther(a.firstPass.backward, b.firstPass.backward),
    },
  }));
}
