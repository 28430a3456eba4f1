/** The engine and the independent simulator on one machine. */
import type { HazardSheet } from "@/lib/throw";
import type { RandomCase } from "./random-machines";
import { dragOf } from "./request";
import { StepTooLong, type Swing, simulate } from "./swing";
import { bruteForce, release, type Throw, type Worst } from "./worst";

export interface Own {
  swing: Swing;
  worst: Worst;
  nominal: number | null;
}

export function ownAnswer({ machine, projectile }: RandomCase, resolution: number): Own {
  const k = dragOf(projectile);
  const swing = simulate(machine, projectile.mass, { resolution });
  const worst = bruteForce(swing, k, Math.max(1, Math.round(resolution / 125)));
  return { swing, worst, nominal: swing.slip ? release(swing.mechanism, swing.slip, k).x : null };
}

const KEYS = ["forward", "backward", "firstForward", "firstBackward"] as const;

/** Whether two distances differ by more than a share of them and by more than 5 cm. */
export const differs = (a: number, b: number, share: number) =>
  Math.abs(a - b) > Math.max(0.05, share * Math.max(Math.abs(a), Math.abs(b)));

/** The answer at a resolution, or null where its steps are too long for the motion. */
function answerOrNull(one: RandomCase, resolution: number): Own | null {
  try {
    return ownAnswer(one, resolution);
  } catch (error) {
    if (error instanceof StepTooLong) return null;
    throw error;
  }
}

/** The answer at the step from which halving it changes nothing that matters; null if that never comes. */
export function convergedAnswer(one: RandomCase, first = 250, most = 4000): Own | null {
  let coarse = answerOrNull(one, first);
  for (let resolution = 2 * first; resolution <= most; resolution *= 2) {
    const fine = answerOrNull(one, resolution);
    if (coarse && fine) {
      const before = coarse;
      const same =
        (fine.nominal === null) === (before.nominal === null) &&
        !differs(fine.nominal ?? 0, before.nominal ?? 0, 3e-4) &&
        !differs(fine.worst.apex, before.worst.apex, 2e-3) &&
        KEYS.every((key) => !differs(fine.worst[key].distance, before.worst[key].distance, 3e-4));
      if (same) return fine;
    }
    coarse = fine;
  }
  return null;
}

export interface Disagreement {
  what: string;
  engine: number | null;
  own: number | null;
  engineTime?: number | null;
  ownTime?: number;
}

/** Where the engine's sheet and the own answer part: own worst beyond the engine's, or the engine's beyond own. */
export function disagreements(sheet: HazardSheet, own: Own): Disagreement[] {
  const found: Disagreement[] = [];
  const nominal = sheet.nominal?.distance ?? null;
  if ((nominal === null) !== (own.nominal === null) || differs(nominal ?? 0, own.nominal ?? 0, 1e-3)) {
    found.push({
      what: "nominal",
      engine: nominal,
      own: own.nominal,
      engineTime: sheet.nominal?.releaseTime,
      ownTime: own.swing.slip?.t,
    });
  }
  const { forward, backward, firstPass } = sheet.worst;
  const pairs: [string, typeof forward, Throw][] = [
    ["worst.forward", forward, own.worst.forward],
    ["worst.backward", backward, own.worst.backward],
    ["firstPass.forward", firstPass.forward, own.worst.firstForward],
    ["firstPass.backward", firstPass.backward, own.worst.firstBackward],
  ];
  for (const [what, engine, mine] of pairs) {
    const share = mine.distance > engine.distance ? 1e-3 : 1e-2;
    if (!differs(engine.distance, mine.distance, share)) continue;
    found.push({
      what,
      engine: engine.distance,
      own: mine.distance,
      engineTime: engine.releaseTime,
      ownTime: mine.t,
    });
  }
  if (differs(sheet.apex, own.worst.apex, 5e-3)) {
    found.push({ what: "apex", engine: sheet.apex, own: own.worst.apex });
  }
  const highest = Math.max(own.worst.forward.distance, own.worst.backward.distance);
  if (sheet.ceiling.distance < highest)
    found.push({ what: "ceiling", engine: sheet.ceiling.distance, own: highest });
  return found;
}
