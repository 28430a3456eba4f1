/** Seeded machines as a fair sees them, with a ± for every number, some of them exact; wind, lift and slopes on some. */
import { type HazardRequest, hazardRequestSchema } from "@/lib/throw";
import { seeded } from "../random-machines";
import { PRESSURE, TEMPERATURE } from "../request";

type Fields = Record<string, unknown>;

class Draw {
  private readonly next: () => number;
  constructor(seed: number) {
    this.next = seeded(seed * 6151 + 29);
  }
  chance = (p: number) => this.next() < p;
  between = (low: number, high: number) => round(low + (high - low) * this.next());
  scaled = (low: number, high: number) => round(low * (high / low) ** this.next());
  pick = <T>(list: readonly T[]) => list[Math.floor(this.next() * list.length)];
}

const round = (value: number) => Number(value.toPrecision(5));
const sin = (degrees: number) => Math.sin((degrees * Math.PI) / 180);

/** Arm, sling and height that go together: the tip near the ground, a sling that reaches the trough. */
function arm(d: Draw) {
  const longArm = d.scaled(1, 5);
  const cockedAngle = d.between(25, 60);
  const height = round(longArm * sin(cockedAngle) + longArm * d.between(0.03, 0.25));
  const tip = height - longArm * sin(cockedAngle);
  const troughHeight = d.chance(0.7) ? 0 : round(tip * d.between(0.1, 0.8));
  const slingLength = Math.max(round(longArm * d.between(0.6, 1.05)), round(1.1 * (tip - troughHeight)));
  return { longArm, cockedAngle, height, sling: sling(d, slingLength, troughHeight) };
}

const sling = (d: Draw, slingLength: number, troughHeight: number) => ({
  slingLength,
  troughHeight,
  troughFriction: d.chance(0.2) ? 0 : d.between(0.05, 0.5),
  releaseAngle: d.between(15, 60),
});

const wheels = (d: Draw, weight: number) =>
  d.chance(0.25) ? { base: { frameMass: round(weight * d.between(0.3, 1.5)), footprint: 2 } } : {};

function counterweight(d: Draw, kind: string): { machine: Fields; mass: number } {
  const { longArm, cockedAngle, height, sling } = arm(d);
  const shortArm = round(longArm / d.between(kind === "floating-arm" ? 2 : 2.8, 5));
  const counterweightMass = d.scaled(20, 800);
  const armMass = round(counterweightMass * d.between(0.04, 0.2));
  const shared = { longArm, shortArm, cockedAngle, armMass, counterweightMass, ...sling };
  const mass = round(counterweightMass / d.scaled(60, 200));
  if (kind === "floating-arm") {
    const stop = d.chance(0.5) ? { endStop: round(shortArm * d.between(0.3, 0.95)) } : {};
    const carriageMass = round(counterweightMass * d.between(0.01, 0.1));
    return {
      machine: {
        kind,
        ...shared,
        trackHeight: height,
        carriageMass,
        ...stop,
        ...wheels(d, counterweightMass),
      },
      mass,
    };
  }
  const more =
    kind === "hinged-counterweight" ? { hangerLength: round(shortArm * d.between(0.3, 0.95)) } : {};
  return {
    machine: {
      kind,
      ...shared,
      pivotHeight: height,
      counterweightInertia: d.chance(0.5) ? 0 : round(counterweightMass * (0.2 * shortArm) ** 2),
      ...more,
      ...wheels(d, counterweightMass),
    },
    mass,
  };
}

function torsion(d: Draw): { machine: Fields; mass: number } {
  const { longArm, cockedAngle, height, sling } = arm(d);
  const mass = d.scaled(0.2, 5);
  const armMass = round(mass * d.between(0.8, 4));
  const speed = d.between(12, 35);
  const stopAngle = d.between(60, 100);
  const travel = ((stopAngle + cockedAngle) * Math.PI) / 180;
  const work = ((mass + armMass / 3) * speed ** 2) / 2;
  const share = d.between(0.1, 0.8);
  return {
    machine: {
      kind: "torsion",
      armLength: longArm,
      armMass,
      pivotHeight: height,
      cockedAngle,
      stopAngle,
      preloadTorque: round((share * work) / travel),
      stiffness: round((2 * (1 - share) * work) / travel ** 2),
      ...(d.chance(0.5) ? sling : {}),
      ...wheels(d, 20 * mass),
    },
    mass,
  };
}

function tension(d: Draw): { machine: Fields; mass: number } {
  const mass = d.scaled(0.05, 5);
  const length = d.scaled(0.5, 3);
  const force = round((mass * d.between(15, 40) ** 2) / length);
  const launchAngle = d.between(15, 65);
  return {
    machine: {
      kind: "tension",
      draw: [
        { length: 0, force: d.chance(0.5) ? 0 : round(force * 0.3) },
        { length: round(length * 0.4), force: round(force * d.between(0.4, 0.8)) },
        { length, force },
      ],
      drawForceScale: 1,
      movingMass: round(mass * d.between(0, 0.8)),
      launchAngle,
      launchHeight: round(length * sin(launchAngle) + d.between(0.1, 1)),
    },
    mass,
  };
}

function spinningArm(d: Draw): { machine: Fields; mass: number } {
  const armLength = d.scaled(0.5, 3);
  const plane = d.pick(["vertical", "horizontal"]);
  return {
    machine: {
      kind: "spinning-arm",
      armLength,
      spinRate: round(d.between(12, 45) / armLength),
      plane,
      releaseAngle: d.between(20, 60),
      releaseJitter: d.between(0, 10),
      launchHeight: round(1.1 * armLength + d.between(0.1, 1)),
      ...(plane === "horizontal" ? { tilt: d.between(0, 5) } : {}),
    },
    mass: d.scaled(0.1, 5),
  };
}

function airCannon(d: Draw): { machine: Fields; mass: number } {
  const boreDiameter = d.between(0.05, 0.25);
  const chamberPressure = round(d.between(2e5, 7e5));
  const mass = round(boreDiameter ** 3 * d.between(300, 1500));
  return {
    machine: {
      kind: "air-cannon",
      chamberVolume: round(d.scaled(0.005, 0.1)),
      chamberPressure,
      barrelLength: d.between(1.5, 6),
      boreDiameter,
      elevation: d.between(15, 60),
      muzzleHeight: d.between(0.5, 4),
      friction: d.chance(0.5) ? 0 : d.between(5, 60),
      ratedPressure: round(chamberPressure * d.between(1.02, 2)),
    },
    mass,
  };
}

const KINDS: Record<string, (d: Draw) => { machine: Fields; mass: number }> = {
  "hinged-counterweight": (d) => counterweight(d, "hinged-counterweight"),
  "fixed-counterweight": (d) => counterweight(d, "fixed-counterweight"),
  "floating-arm": (d) => counterweight(d, "floating-arm"),
  torsion,
  tension,
  "spinning-arm": spinningArm,
  "air-cannon": airCannon,
};

/** ± by parameter: of lengths, masses and what follows from them in shares, of angles in degrees. */
function tolerances(d: Draw, machine: Fields): Record<string, number> {
  const out: Record<string, number> = {};
  for (const [name, value] of Object.entries(machine)) {
    if (typeof value !== "number") continue;
    // Rolling and leaning at once is not computed here: whether the wheels' ground leans too is a matter of reading.
    const rolls = machine.base !== undefined && machine.base !== "fixed";
    if (name === "footprint" || name === "ratedPressure" || (rolls && name === "leanAlong")) out[name] = 0;
    else if (d.chance(0.15)) out[name] = 0;
    else if (/Angle|elevation|tilt|lean|Jitter/.test(name)) out[name] = d.between(0.2, 2);
    else if (name === "troughFriction") out[name] = round(value * 0.5);
    else if (/Mass|Inertia|Torque|stiffness|Pressure|Scale|Volume|spinRate|friction/.test(name)) {
      out[name] = round(value * d.between(0.005, 0.04));
    } else out[name] = round(value * d.between(0.002, 0.012));
  }
  return out;
}

export const FAIR_KINDS = Object.keys(KINDS);

/** The same seed gives the same request. */
export function fairRequest(seed: number, kinds: readonly string[] = FAIR_KINDS): HazardRequest {
  for (let again = 0; ; again++) {
    const d = new Draw(seed * 1009 + again * 7);
    const kind = kinds[seed % kinds.length];
    const { machine, mass } = KINDS[kind](d);
    const diameter = round(Math.cbrt((6 * mass) / (Math.PI * d.scaled(600, 3000))));
    const low = d.between(0.07, 0.35);
    const projectile = {
      mass,
      diameter,
      shape: "smooth-sphere",
      drag: { nominal: 1.2 * low, low, high: 2 * low },
      lift: d.chance(0.3) ? d.between(0.02, 0.15) : 0,
    };
    const speed = d.chance(0.3) ? d.between(1, 8) : 0;
    const wind = { speed, gust: 2 * speed, direction: d.between(0, 360), height: d.pick([2, 10]) };
    const terrain = { below: d.between(0, 8), slope: d.between(-6, 10), crossSlope: 0 };
    const asked = {
      machine,
      projectile,
      air: { temperature: TEMPERATURE, pressure: PRESSURE, ...(speed > 0 ? { wind } : {}) },
      ...(d.chance(0.2) ? { terrain } : {}),
    };
    const parsed = hazardRequestSchema.safeParse(asked);
    if (parsed.success) {
      const all = tolerances(d, { ...parsed.data.machine, mass, diameter });
      return hazardRequestSchema.parse({ ...asked, tolerances: all });
    }
    if (again > 200) throw new Error(`No ${kind} for seed ${seed}: ${parsed.error.message}`);
  }
}
