/** With how much less drive every part would keep its reserve: a lighter counterweight, or springs wound less. */
import type { HazardRequest } from "../contracts";
import { CannotThrow } from "../swing/swing";
import { type Breakage, breakage } from "./breakage";
import type { Help, HelpCode, Wanted } from "./help-codes";
import { leastReserve, livesIn } from "./scope";
import { valueFor } from "./seek";

/** No machine throws with a smaller share of its drive. */
const LEAST_SHARE = 0.02;

export function lighterDrive(request: HazardRequest, short: readonly Wanted[]): Help[] {
  const drive = driveOf(request);
  if (!drive) return [];
  // Parts ask for shares near each other: what was tried for one need not be tried again for the next.
  const tried = new Map<number, Breakage | null>();
  const at = (share: number) => {
    const before = tried.get(share);
    if (before !== undefined) return before;
    const found = tryWith(drive.with(share));
    tried.set(share, found);
    return found;
  };
  return short.map(({ part, scope, rows }): Help => {
    const reserveAt = (share: number) => {
      const found = at(share);
      // A machine that throws nothing any more is no help.
      return found?.distance == null ? null : leastReserve(livesIn(found.parts, part, scope));
    };
    const reserve = leastReserve(rows) as number;
    const factor = rows[0]?.reserve.designFactor ?? 1;
    const share = valueFor(reserveAt, [1, reserve], factor, -1, [LEAST_SHARE, 1]);
    return {
      part,
      scope,
      code: drive.code,
      value: share === null ? null : share * drive.whole,
      distance: share === null ? null : (at(share)?.distance ?? null),
    };
  });
}

function tryWith(request: HazardRequest): Breakage | null {
  try {
    return breakage(request);
  } catch (error) {
    if (error instanceof CannotThrow) return null;
    throw error;
  }
}

interface Drive {
  code: HelpCode;
  /** kg, or 1 of the springs. */
  whole: number;
  with: (share: number) => HazardRequest;
}

function driveOf(request: HazardRequest): Drive | null {
  const { machine } = request;
  if ("counterweightMass" in machine) {
    const { counterweightMass } = machine;
    return {
      code: "counterweight",
      whole: counterweightMass,
      with: (share) => ({
        ...request,
        machine: { ...machine, counterweightMass: share * counterweightMass },
      }),
    };
  }
  if (machine.kind !== "torsion") return null;
  const { preloadTorque, stiffness } = machine;
  return {
    code: "springs",
    whole: 1,
    with: (share) => ({
      ...request,
      machine: { ...machine, preloadTorque: share * preloadTorque, stiffness: share * stiffness },
    }),
  };
}
