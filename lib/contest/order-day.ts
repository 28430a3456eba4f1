/** A contest's day as the planner of the firing order takes it: in seconds since 1970, by the pace of the day. */
import type { OrderRules } from "../api/contracts";
import type { Day, Pause } from "../firing-order";
import type { OrderGeometry } from "./order-geometry";

/** What of a turn the day needs; one that is only proposed has no shot yet. */
export interface DayTurn {
  machineId: string;
  round: number;
  stage: number;
  state: "thrown" | "to-throw" | "out";
  thrownAt: Date | null;
}

/** How long a machine takes, where somebody has said so. */
export interface Crew {
  id: string;
  rearm: number | null;
  live: number | null;
  notBefore: Date | null;
}

export interface DayFacts<T extends DayTurn = DayTurn> {
  /** In the order of the day. */
  turns: readonly T[];
  crews: readonly Crew[];
  rules: OrderRules;
  geometry: OrderGeometry;
  now: Date;
}

const seconds = (at: Date | string): number => new Date(at).getTime() / 1000;

const pausesOf = ({ pauses }: OrderRules): Pause[] =>
  pauses.map(({ from, to }) => ({ from: seconds(from), to: seconds(to) })).sort((a, b) => a.from - b.from);

/** So many of the last throws tell the pace; fewer than the least say nothing. */
const LAST = 8;
const LEAST = 3;
/** Entries closer together than this share of a turn were typed in later; farther apart than this many turns there was a break. */
const TYPED_LATER = 0.25;
const A_BREAK = 3;

/**
 * How long turns take against what was planned, the median of the last ones; null while too few tell. Turns that had to
 * wait for a crew count too: they are what the day is like.
 */
export function paceOf({ turns, crews, rules, geometry }: Omit<DayFacts, "now">): number | null {
  const thrown = turns
    .flatMap(({ machineId, thrownAt }) => (thrownAt ? [{ machineId, at: seconds(thrownAt) }] : []))
    .sort((a, b) => a.at - b.at);
  const pauses = pausesOf(rules);
  const ratios = thrown.slice(1).flatMap(({ machineId, at }, index) => {
    const since = thrown[index]?.at as number;
    if (pauses.some(({ from, to }) => from < at && to > since)) return [];
    const live = crews.find(({ id }) => id === machineId)?.live ?? rules.live;
    const planned = rules.measure + rules.call + live + (geometry[machineId]?.clears ? rules.clearing : 0);
    const ratio = planned > 0 ? (at - since) / planned : 0;
    return ratio >= TYPED_LATER && ratio <= A_BREAK ? [ratio] : [];
  });
  const last = ratios.slice(-LAST).sort((a, b) => a - b);
  if (last.length < LEAST) return null;
  const middle = last.length / 2;
  return ((last[Math.floor(middle)] as number) + (last[Math.ceil(middle) - 1] as number)) / 2;
}

/** The day from now on, its turns as they stand. */
export function dayOf({ turns, crews, rules, geometry, now }: DayFacts): Day {
  const pace = paceOf({ turns, crews, rules, geometry }) ?? 1;
  const left = turns.filter(({ state }) => state === "to-throw");
  const thrown = turns.flatMap(({ machineId, stage, thrownAt }) =>
    thrownAt ? [{ machine: machineId, stage, end: seconds(thrownAt) }] : [],
  );
  const last = Math.max(Number.NEGATIVE_INFINITY, ...thrown.map(({ end }) => end));
  const measure = rules.measure * pace;
  const throwing = new Set(turns.map(({ machineId }) => machineId));
  const machines = crews
    .filter(({ id }) => throwing.has(id))
    .map(({ id, rearm, live, notBefore }) => ({
      id,
      rearm: rearm ?? rules.rearm,
      live: (live ?? rules.live) * pace,
      ...(notBefore && { from: seconds(notBefore) }),
    }));
  return {
    machines,
    rules: {
      call: rules.call * pace,
      clearing: rules.clearing * pace,
      measure,
      stepBack: rules.stepBack,
      longestWait: rules.longestWait,
      rotate: rules.rotate,
      pauses: pausesOf(rules),
    },
    covers: new Map(machines.map(({ id }) => [id, geometry[id]?.covers ?? []])),
    clears: new Set(machines.filter(({ id }) => geometry[id]?.clears).map(({ id }) => id)),
    stages: [...new Set(left.map(({ stage }) => stage))]
      .sort((a, b) => a - b)
      .map((stage) => ({
        stage,
        machines: left.filter((turn) => turn.stage === stage).map(({ machineId }) => machineId),
      })),
    thrown,
    now: Math.max(seconds(now), seconds(rules.startAt), last + measure),
  };
}

/**
 * Whoever comes only when its round is over for all others makes up for it in the next round's order; in the last one
 * the others wait. Answers the turns in their new stages, in the same order otherwise.
 */
export function withLatecomersLater<T extends DayTurn>(facts: DayFacts<T>): T[] {
  const day = dayOf(facts);
  const { call, clearing, measure } = day.rules;
  const byId = new Map(day.machines.map((machine) => [machine.id, machine]));
  const moved = new Map<T, number>();
  const stages = day.stages.map(({ stage }) => stage);
  let end = day.now;
  for (const [index, stage] of stages.entries()) {
    const here = facts.turns.filter(
      (turn) => turn.state === "to-throw" && (moved.get(turn) ?? turn.stage) === stage,
    );
    const takes = ({ machineId }: T) =>
      call + (byId.get(machineId)?.live ?? 0) + (day.clears.has(machineId) ? clearing : 0) + measure;
    const over = here.reduce((sum, turn) => sum + takes(turn), end);
    const next = stages[index + 1];
    const late = here.filter(({ machineId }) => (byId.get(machineId)?.from ?? 0) > over);
    if (next !== undefined && late.length < here.length) for (const turn of late) moved.set(turn, next);
    end = here.filter((turn) => !late.includes(turn)).reduce((sum, turn) => sum + takes(turn), end);
  }
  return facts.turns.map((turn) => ({ ...turn, stage: moved.get(turn) ?? turn.stage }));
}
