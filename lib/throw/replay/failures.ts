/** What may have broken on the declared machine so that a part of it came down at the target. */
import type { Case } from "../case";
import type { Fault, FaultCode } from "../contracts/faults";
import type { Policy } from "../contracts/policy";
import type { HazardRequest } from "../contracts/request";
import { formulaFaults } from "../faults/formula-faults";
import { SwingFaults } from "../faults/swing-faults";
import { sweep, swingLives } from "../loads/loads";
import type { Frame } from "../setup";
import { EXACT, type Found, MEAN, spotsOf, turnedBy } from "./found";
import type { Lander } from "./landing";
import { type PieceHit, TargetFlights } from "./pieces";
import { RADIAN } from "./target";

/** Which failure sends which piece; the names are those of the hazard sheet's pieces. */
export const FAULT_OF: Readonly<Record<string, FaultCode>> = {
  "Outer piece of the arm": "arm-breaks",
  "Outer piece of the arm with the projectile": "arm-breaks",
  Counterweight: "counterweight-drops",
  "Carriage with the arm": "carriage-leaves-track",
  "Limb or cord": "limb-breaks",
  "Fragment as heavy as the cap": "chamber-bursts",
  Cap: "cap-ejected",
  "Barrel or valve as light as the cap": "barrel-ejected",
};

export function machineParts(
  request: HazardRequest,
  worked: Pick<Case, "trace" | "releases" | "airs">,
  policy: Policy,
  frame: Frame,
  lander: Lander,
): Found[] {
  const { angles } = policy;
  const limits = {
    plane: (angles.debris + angles.aim + angles.lean) * RADIAN,
    velocity: angles.tornSling * RADIAN,
  };
  const flights = new TargetFlights(request, worked.airs, policy, lander, limits);
  const lives = swingLives(request, worked);
  const swept = sweep(request, worked, lives);
  const list =
    lives && swept
      ? new SwingFaults(lives, worked.releases.nominal, request.strengths, swept, flights).list()
      : formulaFaults(request, flights);
  const pieces = flights.hits().map((hit) => foundPiece(hit, frame, lander));
  const tips = list.find(({ code }) => code === "machine-tips");
  return tips ? [...pieces, tipped(tips, frame, lander)] : pieces;
}

function foundPiece(hit: PieceHit, frame: Frame, { target }: Lander): Found {
  const { vx, vy, y } = hit.start;
  return {
    cause: "fault",
    fault: FAULT_OF[hit.of.name] ?? "arm-breaks",
    piece: hit.of.name,
    station: hit.station,
    time: hit.time,
    delay: null,
    tornAt: hit.tornAt,
    afterSlack: false,
    stop: "none",
    frame,
    load: "declared",
    speed: Math.hypot(vx, vy),
    angle: Math.atan2(vy, vx) / RADIAN,
    height: y,
    turn: turnedBy(hit.turn),
    turnBy: hit.turnBy,
    air: MEAN,
    tolerance: EXACT,
    ...spotsOf(hit.landed, target),
    miss: hit.miss,
  };
}

/** A machine that falls over covers all that lies within its height. */
function tipped({ reach }: Fault, frame: Frame, { target }: Lander): Found {
  const spot = { downrange: target.x, aside: target.z };
  const within = Math.min(1, reach.forward / Math.max(1e-9, target.distance));
  const impact = { downrange: spot.downrange * within, aside: spot.aside * within };
  return {
    cause: "fault",
    fault: "machine-tips",
    piece: "Any part of the machine",
    station: null,
    time: null,
    delay: null,
    tornAt: null,
    afterSlack: false,
    stop: "none",
    frame,
    load: "declared",
    speed: 0,
    angle: 0,
    height: 0,
    turn: 0,
    turnBy: "all-round",
    air: MEAN,
    tolerance: EXACT,
    from: { downrange: 0, aside: 0 },
    impact,
    rest: target.rest ? impact : null,
    miss: Math.max(0, target.distance - reach.forward),
  };
}
