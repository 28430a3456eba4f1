/** The lives of a swung machine: its throw, what follows when the loop has slipped, and a hang-up. */
import type { Case } from "../case";
import type { Strengths } from "../contracts/strengths";
import type { SwungMachine, Throwable } from "../setup";
import type { Trace } from "../swing/trace";
import { type Body, bodyOf } from "./body";
import type { Stretch } from "./peaks";
import { modeOf, Pose } from "./pose";
import { type Unloaded, UnloadedSwing } from "./unloaded";

/** What loads, sweep and faults look at together, worked out once. */
export interface Lives {
  machine: SwungMachine;
  body: Body;
  /** For evaluating states of any of the traces. */
  pose: Pose;
  /** The loaded swing, held on to the horizon. */
  trace: Trace;
  /** Steps of `trace` at which the arm stands locked at its stop. */
  locked: (step: number) => boolean;
  throw: Stretch[];
  hangUp: Stretch[];
  /** The unloaded swing after the loop has slipped; null when it never slips or the arm stands locked then. */
  after: Unloaded | null;
  unloaded: UnloadedSwing;
}

/** Null for a machine that is not swung by its equations of motion. */
export function livesOf(
  request: Throwable & { machine: SwungMachine },
  worked: Pick<Case, "trace" | "releases">,
  strengths: Strengths | undefined,
): Lives | null {
  const { trace, releases } = worked;
  if (!trace) return null;
  const { nominal } = releases;
  const { setup } = trace.motion;
  const body = bodyOf(request.machine, setup, strengths);
  const pose = new Pose(setup, body);
  const unloaded = new UnloadedSwing(pose.motion, setup.horizon);
  const holding = trace.segments.filter(({ stop }) => stop === "holds");
  const locked = (step: number) => holding.some(({ from, to }) => step >= from && step < to);
  let after: Unloaded | null = null;
  if (nominal && !locked(nominal.step)) {
    const y = trace.stateAt(nominal.step, nominal.fraction).slice();
    const mode = modeOf(trace, nominal.step);
    after = unloaded.run(trace.phase(nominal.step), y, mode, nominal.time, true);
  }
  return { machine: request.machine, body, pose, trace, locked, ...divided(trace, nominal), after, unloaded };
}

/** The trace up to the instant at which the loop should slip, and from there. */
function divided(trace: Trace, nominal: Case["releases"]["nominal"]): Pick<Lives, "throw" | "hangUp"> {
  const before: Stretch[] = [];
  const hangUp: Stretch[] = [];
  for (const { stop, from, to } of trace.segments) {
    if (to <= from) continue;
    const whole = { from, to, begin: 0, end: 1 };
    if (!nominal) {
      if (stop !== "fails") before.push(whole);
      continue;
    }
    const { step, fraction } = nominal;
    if (step >= from && step < to) {
      before.push({ from, to: step + 1, begin: 0, end: fraction });
      hangUp.push({ from: step, to, begin: fraction, end: 1 });
    } else if (step >= to && stop !== "fails") before.push(whole);
    else hangUp.push(whole);
  }
  return { throw: before, hangUp };
}

/** The whole of an unloaded run, as a stretch of its own trace. */
export function wholeOf({ trace }: Unloaded): Stretch[] {
  return trace.steps > 0 ? [{ from: 0, to: trace.steps, begin: 0, end: 1 }] : [];
}
