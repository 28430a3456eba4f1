/** Random machines of every arm kind, as fast-check arbitraries: what people build, and somewhat beyond. */
import fc from "fast-check";
import { type HazardRequest, hazardRequestSchema, type Machine, machineKind } from "@/lib/throw";

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });

const arm = {
  longArm: between(0.8, 8),
  shortShare: between(0.15, 0.5),
  heightShare: between(0.6, 1.1),
  cockedAngle: between(15, 60),
  armMassShare: between(0.02, 0.15),
  counterweightMass: between(20, 2000),
  slingShare: between(0.5, 1.1),
  massShare: between(0.004, 0.03),
  troughFriction: fc.constantFrom(0, 0.15, 0.4),
  releaseAngle: between(5, 70),
};

type Draw = { [Key in keyof typeof arm]: number };

const common = (draw: Draw) => ({
  longArm: draw.longArm,
  shortArm: draw.longArm * draw.shortShare,
  cockedAngle: draw.cockedAngle,
  armMass: draw.counterweightMass * draw.armMassShare,
  counterweightMass: draw.counterweightMass,
  slingLength: draw.longArm * draw.slingShare,
  troughFriction: draw.troughFriction,
  releaseAngle: draw.releaseAngle,
});

const shot = (draw: Draw) => ({
  mass: draw.counterweightMass * draw.massShare,
  diameter: 0.15,
  drag: { nominal: 0.3, low: 0.3, high: 0.3 },
  lift: 0,
});

/** Every parameter exact, so that worst holds for just this machine. */
const exact = (kind: Machine["kind"]) =>
  Object.fromEntries(
    [...machineKind(kind).parameters.map(({ name }) => name), "mass", "diameter"].map((name) => [name, 0]),
  );

const hinged = fc.record({ ...arm, hangerShare: between(0.05, 0.4) }).map((draw) => ({
  machine: {
    kind: "hinged-counterweight",
    ...common(draw),
    pivotHeight: draw.longArm * draw.heightShare,
    hangerLength: draw.longArm * draw.hangerShare,
  },
  projectile: shot(draw),
  tolerances: exact("hinged-counterweight"),
}));

const fixed = fc.record({ ...arm, inertia: between(0, 0.3) }).map((draw) => ({
  machine: {
    kind: "fixed-counterweight",
    ...common(draw),
    pivotHeight: draw.longArm * draw.heightShare,
    counterweightInertia: draw.counterweightMass * draw.inertia ** 2,
  },
  projectile: shot(draw),
  tolerances: exact("fixed-counterweight"),
}));

const floating = fc
  .record({ ...arm, carriage: between(0, 0.1), stop: fc.option(between(-0.6, 0.95), { nil: undefined }) })
  .map((draw) => {
    const shortArm = draw.longArm * Math.max(0.3, draw.shortShare);
    return {
      machine: {
        kind: "floating-arm",
        ...common(draw),
        shortArm,
        trackHeight: draw.longArm * draw.heightShare,
        carriageMass: draw.counterweightMass * draw.carriage,
        endStop: draw.stop === undefined ? undefined : draw.stop * shortArm,
      },
      projectile: shot(draw),
      tolerances: exact("floating-arm"),
    };
  });

/** Requests that the gate lets through; the impossible draws are dropped. */
export const requests: fc.Arbitrary<HazardRequest> = fc
  .oneof(hinged, fixed, floating)
  .map((candidate) => hazardRequestSchema.safeParse(candidate))
  .filter((parsed) => parsed.success)
  .map((parsed) => parsed.data as HazardRequest);
