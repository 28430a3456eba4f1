/**
 * A day on the range as the planner sees it. Times are seconds on one clock, whatever its zero is; machines go by id.
 * Nothing of the database, the web or the clock comes in here.
 */

export interface Machine {
  id: string;
  /** What the crew does at the machine, made safe, between two throws until it may be raised again, s. */
  rearm: number;
  /** From the first raising until it is made safe again: its zone is live, s. */
  live: number;
  /** It is not here, or not ready, before this. */
  from?: number;
}

export interface Pause {
  from: number;
  to: number;
}

export interface Rules {
  /** Before a machine goes live: posts say clear, the tally is read, s. */
  call: number;
  /** Added where somebody has to leave a zone first, s. */
  clearing: number;
  /** After each throw: the range is cold, people walk to the landing point, s. */
  measure: number;
  /** What a crew loses by leaving its machine and coming back, s. */
  stepBack: number;
  /** A machine that is ready again throws within this, s; null takes one and a half rounds. */
  longestWait: number | null;
  /** Nobody opens or closes more rounds than its share, and nobody's mean place is in the outer quarters. */
  rotate: boolean;
  /** Nobody throws and nobody re-arms, in order of time. */
  pauses: readonly Pause[];
}

/** What was thrown already: it stays as it was. */
export interface Thrown {
  machine: string;
  /** In which round's order it was. */
  stage: number;
  /** When it was made safe again. */
  end: number;
}

export interface Turn {
  machine: string;
  stage: number;
}

export interface Day {
  machines: readonly Machine[];
  rules: Rules;
  /** Whose firing point or crew place lies in whose zone: by the machine that throws. */
  covers: ReadonlyMap<string, readonly string[]>;
  /** Machines before whose throw anybody at all has to leave. */
  clears: ReadonlySet<string>;
  /** What is still to throw, a list for each round in any order; rounds are thrown one after the other. */
  stages: readonly { stage: number; machines: readonly string[] }[];
  thrown: readonly Thrown[];
  /** No turn begins before this. */
  now: number;
  /** What people were told last, in order. */
  announced?: readonly Turn[];
  /** So many turns of what was announced stay first, in their order: who is being called is not called off. */
  firm?: number;
}

/** A day with numbers for names, so that thousands of orders can be tried. */
export interface Compiled {
  ids: readonly string[];
  rearm: Float64Array;
  /** Call, clearing and live: from when others are out of its zone until they may come back, s. */
  busy: Float64Array;
  from: Float64Array;
  /** covered[a·n + b]: whether b stands in a's zone. */
  covered: Uint8Array;
  /** When each machine will be re-armed after what it threw already; −∞ before its first throw. */
  ready: Float64Array;
  stages: readonly CompiledStage[];
  rules: Rules;
  longestWait: number;
  now: number;
  /** Places so far, each from 0 (first) to 1 (last): their sum and how many, and how often a machine opened a round. */
  placeSum: Float64Array;
  placeCount: Int32Array;
  opened: Int32Array;
}

export interface CompiledStage {
  stage: number;
  machines: Int32Array;
  /** How many of this round were thrown before. */
  thrown: number;
}

/** Work that lasts until `until` and goes on after `since` is put off by the pauses that begin meanwhile. */
export function overPauses(pauses: readonly Pause[], since: number, until: number): number {
  let end = until;
  for (const { from, to } of pauses) if (from >= since && from < end) end += to - from;
  return end;
}

/** How much of a stretch of time is pause. */
export function pausedWithin(pauses: readonly Pause[], since: number, until: number): number {
  let paused = 0;
  for (const { from, to } of pauses) paused += Math.max(0, Math.min(to, until) - Math.max(from, since));
  return paused;
}

/** Rounds that a longest wait takes where the rules name none. */
const FAIR_ROUNDS = 1.5;

export function compile(day: Day): Compiled {
  const { machines, rules } = day;
  const ids = machines.map(({ id }) => id);
  const n = ids.length;
  const at = new Map(ids.map((id, index) => [id, index]));
  const indexOf = (id: string): number => {
    const index = at.get(id);
    if (index === undefined) throw new RangeError(`No machine ${id} in this day.`);
    return index;
  };
  const covered = new Uint8Array(n * n);
  for (const [from, others] of day.covers)
    for (const other of others)
      if (at.has(from) && at.has(other) && from !== other) covered[indexOf(from) * n + indexOf(other)] = 1;
  const busy = Float64Array.from(
    machines,
    ({ id, live }) => rules.call + live + (day.clears.has(id) ? rules.clearing : 0),
  );
  const thrownIn = (stage: number) => day.thrown.filter((each) => each.stage === stage);
  const stages = day.stages
    .filter(({ machines: left }) => left.length > 0)
    .map(({ stage, machines: left }) => ({
      stage,
      machines: Int32Array.from(left, indexOf),
      thrown: thrownIn(stage).length,
    }));
  const turns = stages.flatMap((each) => [...each.machines]);
  const total = turns.reduce((sum, machine) => sum + (busy[machine] as number) + rules.measure, 0);
  const compiled: Compiled = {
    ids,
    rearm: Float64Array.from(machines, ({ rearm }) => rearm),
    busy,
    from: Float64Array.from(machines, ({ from }) => from ?? Number.NEGATIVE_INFINITY),
    covered,
    ready: new Float64Array(n).fill(Number.NEGATIVE_INFINITY),
    stages,
    rules,
    longestWait: rules.longestWait ?? (FAIR_ROUNDS * total) / Math.max(1, stages.length),
    now: day.now,
    placeSum: new Float64Array(n),
    placeCount: new Int32Array(n),
    opened: new Int32Array(n),
  };
  for (const { machine, end } of [...day.thrown].sort((a, b) => a.end - b.end))
    if (at.has(machine)) afterThrow(compiled, compiled.ready, indexOf(machine), end);
  for (const stage of new Set(day.thrown.map((each) => each.stage))) {
    const of = thrownIn(stage);
    const size = of.length + (day.stages.find((each) => each.stage === stage)?.machines.length ?? 0);
    for (const [place, { machine }] of of.entries()) {
      const index = at.get(machine);
      if (index === undefined) continue;
      (compiled.placeSum[index] as number) += relative(place, size);
      (compiled.placeCount[index] as number)++;
      if (place === 0) (compiled.opened[index] as number)++;
    }
  }
  return compiled;
}

/** Where in its round a turn is, from 0 (first) to 1 (last). */
export const relative = (place: number, size: number): number => (size > 1 ? place / (size - 1) : 0.5);

/** Machine `a` was made safe at `end`: it begins to re-arm, and those in its zone go on with theirs. */
export function afterThrow(day: Compiled, ready: Float64Array, a: number, end: number): void {
  const n = day.ids.length;
  const { pauses, stepBack } = day.rules;
  const start = end - (day.busy[a] as number);
  for (let b = 0; b < n; b++) {
    const until = ready[b] as number;
    if (until > start && day.covered[a * n + b] === 1)
      ready[b] = overPauses(pauses, until, until + (end - start) + stepBack);
  }
  ready[a] = overPauses(pauses, end, end + (day.rearm[a] as number));
}
