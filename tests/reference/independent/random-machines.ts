/** Seeded machines of the three kinds, most of them odd: light arms, heavy loads, long slings, sticky troughs. */
import type { SwingMachine } from "./mechanism";

/** mulberry32: a small generator of numbers in [0, 1), public domain. */
export function seeded(seed: number): () => number {
  let a = seed >>> 0;
  return () => {
    a = (a + 0x6d2b79f5) >>> 0;
    let t = a;
    t = Math.imul(t ^ (t >>> 15), t | 1);
    t ^= t + Math.imul(t ^ (t >>> 7), t | 61);
    return ((t ^ (t >>> 14)) >>> 0) / 4294967296;
  };
}

export interface RandomCase {
  machine: SwingMachine;
  projectile: { mass: number; diameter: number; drag: number };
}

const round = (value: number) => Number(value.toPrecision(6));

export function randomCase(seed: number): RandomCase {
  const random = seeded(seed * 7919 + 13);
  const between = (low: number, high: number) => low + (high - low) * random();
  const logBetween = (low: number, high: number) => low * (high / low) ** random();
  const chance = (p: number) => random() < p;
  const kinds = ["hinged-counterweight", "fixed-counterweight", "floating-arm"] as const;
  const kind = kinds[seed % 3];

  const longArm = round(logBetween(0.8, 9));
  const shortArm = round(longArm / between(kind === "floating-arm" ? 1.2 : 1.8, 6.5));
  const cockedAngle = round(chance(0.85) ? between(15, 75) : between(-15, 15));
  const rad = (cockedAngle * Math.PI) / 180;
  const height = round(
    Math.max(0.15 * longArm, longArm * Math.sin(rad) + longArm * between(0.01, chance(0.3) ? 0.6 : 0.15)),
  );
  const tip = height - longArm * Math.sin(rad);
  const troughHeight = chance(0.65) ? 0 : round(between(0, chance(0.7) ? tip : tip + 0.3 * longArm));
  const reach = Math.abs(tip - troughHeight);
  const slingLength = round(
    Math.max(longArm * (chance(0.75) ? between(0.5, 1.1) : between(0.15, 1.9)), reach * between(1.02, 1.4)),
  );
  const starting = 180 - cockedAngle - (Math.asin((tip - troughHeight) / slingLength) * 180) / Math.PI;
  const releaseAngle = round(
    chance(0.85) ? between(5, Math.min(80, starting - 5)) : between(-150, starting - 1),
  );

  const mass = round(logBetween(0.05, 30));
  const counterweightMass = round(mass * logBetween(chance(0.2) ? 6 : 30, 400));
  const armMass = round(counterweightMass * logBetween(0.001, 0.3));
  const armLength = longArm + shortArm;
  const shared = {
    longArm,
    shortArm,
    cockedAngle,
    armMass,
    counterweightMass,
    counterweightSize: 0,
    slingLength,
    troughHeight,
    troughFriction: chance(0.3) ? 0 : round(chance(0.8) ? between(0.05, 0.6) : between(0.6, 1.5)),
    releaseAngle,
    base: "fixed" as const,
    ...(chance(0.3)
      ? {
          armCentre: round(armLength * between(0.3, 0.6)),
          armInertia: round(armMass * armLength ** 2 * between(0.03, 0.12)),
        }
      : {}),
  };
  const projectile = {
    mass,
    diameter: round(Math.cbrt((6 * mass) / (Math.PI * logBetween(300, 7000)))),
    drag: round(between(0.05, 0.6)),
  };
  const counterweightInertia = chance(0.5)
    ? 0
    : round(counterweightMass * (shortArm * between(0.05, 0.6)) ** 2);
  if (kind === "floating-arm") {
    const stop = chance(0.65) ? { endStop: round(shortArm * between(-Math.cos(rad) + 0.02, 1)) } : {};
    const carriageMass = round(counterweightMass * logBetween(0.002, 0.3));
    return { machine: { kind, trackHeight: height, carriageMass, ...shared, ...stop }, projectile };
  }
  if (kind === "fixed-counterweight") {
    return { machine: { kind, pivotHeight: height, counterweightInertia, ...shared }, projectile };
  }
  const hangerLength = round(shortArm * logBetween(0.05, 1.6));
  return {
    machine: { kind, pivotHeight: height, counterweightInertia, hangerLength, ...shared },
    projectile,
  };
}

/**
 * The same, pushed to the edges: arms and carriages without mass, a load nearly as heavy as its counterweight,
 * a sling several arms long, a hanger of a hand's breadth, a trough above the tip, friction up to 3.
 */
export function extremeCase(seed: number): RandomCase {
  const { machine, projectile } = randomCase(seed + 100_000);
  const random = seeded(seed * 104_729 + 7);
  const between = (low: number, high: number) => low + (high - low) * random();
  const logBetween = (low: number, high: number) => low * (high / low) ** random();
  const chance = (p: number) => random() < p;
  const odd = { ...machine };
  if (odd.kind === "floating-arm" && chance(0.3)) odd.carriageMass = 0;
  if (chance(0.4)) {
    // Nothing at all to turn is no mechanics: a weightless arm needs a carriage or a counterweight that turns.
    const turns = odd.kind === "floating-arm" ? odd.carriageMass > 0 : odd.counterweightInertia > 0;
    odd.armMass = turns && chance(0.5) ? 0 : round(odd.counterweightMass * logBetween(1e-4, 1e-3));
    delete odd.armInertia;
    delete odd.armCentre;
  }
  if (chance(0.3)) odd.slingLength = round(odd.longArm * between(1.5, 4));
  if (chance(0.3)) odd.troughFriction = round(between(0.5, 3));
  if (chance(0.25)) odd.shortArm = round(odd.longArm / between(6, 14));
  if (chance(0.2)) odd.cockedAngle = round(odd.cockedAngle * 0.3);
  if (odd.kind === "hinged-counterweight" && chance(0.4)) {
    odd.hangerLength = round(odd.shortArm * (chance(0.5) ? between(0.01, 0.05) : between(1, 3)));
  }
  if (odd.kind === "floating-arm") delete odd.endStop;
  if (odd.kind === "floating-arm" && chance(0.7)) {
    odd.endStop = round(odd.shortArm * between(-Math.cos((odd.cockedAngle * Math.PI) / 180) + 0.01, 1));
  }
  const mass = chance(0.5) ? round(odd.counterweightMass / logBetween(2, 20)) : projectile.mass;
  return { machine: odd, projectile: { ...projectile, mass } };
}
