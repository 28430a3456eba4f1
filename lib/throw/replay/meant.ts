/** The throw as meant, with as little wrong about it as brings it to the target: air, aim, or a share of the tolerances. */
import { moved } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import type { Air } from "../flight/flight";
import type { Instant } from "../release";
import type { Frame } from "../setup";
import { CannotThrow } from "../swing/swing";
import { type Box, cornerOf, requestAt } from "../worst/box";
import { QUICK } from "../worst/quick";
import { type AirName, between, type Sky } from "./airs";
import { EXACT, type Found, foundOf, MEAN, type Scene } from "./found";
import type { Hit } from "./instants";
import { crossing, type Lander, type Limits, type Turn } from "./landing";

/** How far bounce and roll may differ from what the ground's firmness says. Common practice, no source. */
const ROLL = { least: 0.5, most: 1.5 };
/** A landing this near to the target is on it, m. */
const ON_TARGET = 0.002;

export class MeantThrow {
  private readonly nominal: Instant;

  constructor(
    nominal: Instant,
    private readonly lander: Lander,
    private readonly limits: Limits,
    private readonly scene: Omit<Scene, "air" | "tolerance">,
    /** An arm in a level plane lets go towards any azimuth: how early or late decides it. */
    private readonly allRound: boolean,
  ) {
    this.nominal = nominal;
  }

  /** Declared dimensions: the mean wind first, then each thing of the air by itself as far as it must go. */
  inAirs({ mean, others }: Sky): Found[] {
    const speed = Math.hypot(this.nominal.vx, this.nominal.vy);
    const plain = this.thrown(this.nominal, mean);
    const out = [this.found(plain, { ...this.scene, air: MEAN, tolerance: EXACT })];
    for (const { name, air } of others) {
      const hit = (share: number) => this.thrown(this.nominal, between(mean, air, share, speed));
      const share = crossing((at) => this.lander.beyond(hit(at).landed), 0, 1, ON_TARGET);
      if (share > 0) out.push(this.found(hit(share), this.inAir(name, share)));
    }
    return out;
  }

  /** Every tolerance by the same share of its side, all helping towards the target. Empty without a box to vary. */
  withinTolerances(box: Box, frame: Frame, mean: Air): Found[] {
    const { sides } = box;
    const at = (point: Float64Array) => {
      const instant = nominalAt(box, point, frame);
      return instant && this.thrown(instant, mean);
    };
    const plain = this.lander.beyond(this.thrown(this.nominal, mean).landed);
    const point = new Float64Array(sides.length);
    const signs = new Float64Array(sides.length);
    for (let i = 0; i < sides.length; i++) {
      const [low, high] = [-1, 1].map((end) => {
        point.fill(0);
        point[i] = end;
        const hit = at(point);
        return hit ? this.lander.beyond(hit.landed) : Number.NaN;
      });
      // Too far asks for what shortens the throw.
      const better = plain > 0 ? Math.min : Math.max;
      const best = better(...[low, high].filter(Number.isFinite), plain);
      signs[i] = best === plain ? 0 : best === low ? -1 : 1;
    }
    const scaled = (share: number) => at(signs.map((sign) => sign * share));
    const beyond = (share: number) => {
      const hit = scaled(share);
      return hit ? this.lander.beyond(hit.landed) : Number.NaN;
    };
    // Large corners may hang up: as far out as they still let go.
    let most = 1;
    while (most > 0.05 && !Number.isFinite(beyond(most))) most *= 0.7;
    if (!Number.isFinite(beyond(most))) return [];
    const share = crossing(beyond, 0, most, ON_TARGET);
    const hit = scaled(share);
    if (!hit || share === 0) return [];
    const corner = cornerOf(
      box,
      signs.map((sign) => sign * share),
    );
    return [this.found(hit, { ...this.scene, air: MEAN, tolerance: { share, corner } })];
  }

  private inAir(name: AirName, share: number): Scene {
    return { ...this.scene, air: { name, share }, tolerance: EXACT };
  }

  private found(hit: Hit, scene: Scene): Found {
    return foundOf(hit, scene, this.nominal, this.lander.target);
  }

  /** One release flown, turned towards the target as far as its cause allows, rolling as it must. */
  private thrown(instant: Instant, air: Air): Hit {
    const { lander } = this;
    const limits = this.allRound ? { plane: Math.PI, velocity: 0 } : this.limits;
    let turn: Turn = this.allRound
      ? { plane: 0, velocity: 0 }
      : (lander.turnFor(instant, limits) ?? { plane: 0, velocity: 0 });
    let landed = lander.land(instant, air, turn, true);
    for (let round = 0; round < 3; round++) {
      turn = lander.corrected(instant, turn, landed, limits);
      landed = lander.land(instant, air, turn, true);
    }
    if (lander.target.rest) {
      const rolled = Math.hypot(landed.restX - landed.x, landed.restZ - landed.z);
      const wanted = rolled - lander.beyond(landed);
      const roll = rolled > 0 ? Math.max(ROLL.least, Math.min(ROLL.most, wanted / rolled)) : 1;
      landed = lander.land(instant, air, turn, true, roll);
    }
    const turned = Math.abs(turn.plane) > 1e-4 || turn.velocity !== 0;
    const turnBy = !turned
      ? "none"
      : this.allRound
        ? "all-round"
        : turn.velocity !== 0
          ? "torn-sling"
          : "aim";
    return { key: "meant", cause: "as-meant", turnBy, instant, turn, landed, miss: lander.miss(landed) };
  }
}

/** The throw as meant of a machine of the box; null where it is none, or never lets go. */
function nominalAt(box: Box, point: Float64Array, frame: Frame): Instant | null {
  const request = requestAt(box, point);
  const { releaseAngle } = box.request.machine as { releaseAngle?: number };
  const machine = { ...request.machine, ...(releaseAngle === undefined ? {} : { releaseAngle }) };
  const exact = { ...request, machine: machine as HazardRequest["machine"] };
  if (refusals(exact).length > 0) return null;
  try {
    return moved(exact, frame, QUICK).releases.nominal;
  } catch (error) {
    if (error instanceof CannotThrow || error instanceof RangeError) return null;
    throw error;
  }
}
