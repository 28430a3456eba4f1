/** Any machine whose release speed was measured: only the flight is computed. */
import { z } from "zod";
import type { Instant, Releases } from "../release";
import { away, between, type Drawing, type Point } from "./drawing";
import type { MachineKind } from "./kind";
import { heightOrZero } from "./numbers";

const measuredSchema = z.strictObject({
  kind: z.literal("measured"),
  releaseSpeed: z.number().positive().max(400),
  launchAngle: z.number().min(-90).max(180),
  launchHeight: heightOrZero,
});

type Measured = z.output<typeof measuredSchema>;

export const measured: MachineKind<typeof measuredSchema> = {
  kind: "measured",
  title: "Measured speed",
  summary: "Any machine whose release speed was measured, by video or radar.",
  schema: measuredSchema,
  parameters: [
    {
      name: "releaseSpeed",
      label: "Release speed",
      dimension: "speed",
      required: true,
      help: "The fastest of several measured throws.",
      // What a video or a radar of a few throws may err by.
      tolerance: { share: 0.05 },
    },
    {
      name: "launchAngle",
      label: "Launch angle",
      dimension: "angle",
      required: true,
      help: "Above the horizontal, as meant; the worst case assumes that it may leave in any direction.",
      onlyNominal: true,
    },
    {
      name: "launchHeight",
      label: "Release height",
      dimension: "length",
      required: true,
      help: "Of the projectile above the ground when it leaves.",
      tolerance: {},
    },
  ],
  drawing,
  motion: {
    by: "formula",
    releases: (machine, { tolerances }) => new MeasuredReleases(machine, tolerances.launchAngle),
    ceiling: ({ releaseSpeed, launchHeight }) => ({ speed: releaseSpeed, height: launchHeight, reach: 0 }),
  },
  notModelled: ["The machine itself: only the flight from the measured speed is computed."],
  example: { kind: "measured", releaseSpeed: 38, launchAngle: 42, launchHeight: 3.5 },
  exampleProjectile: { mass: 3, diameter: 0.2 },
};

/** Nothing is known of what else the machine can do: the projectile may leave in any direction. */
const ANY_DIRECTION = 180;

/** Any direction within the declared tolerance of the launch angle; every direction without one. */
class MeasuredReleases implements Releases {
  readonly list: Instant[] = [];
  readonly nominal: Instant;
  readonly branches = ["Any launch direction at the measured speed"];
  readonly allRound = null;
  private readonly from: number;
  private readonly to: number;

  constructor(
    private readonly machine: Measured,
    tolerance = ANY_DIRECTION,
  ) {
    const spread = Math.min(ANY_DIRECTION, tolerance);
    this.from = machine.launchAngle - spread;
    this.to = machine.launchAngle + spread;
    this.nominal = this.instant(machine.launchAngle, 0.5);
    const parts = Math.max(1, Math.ceil(2 * spread));
    for (let i = 0; i <= parts; i++) this.list.push(this.near(this.nominal, i / parts));
  }

  near(_instant: Instant, fraction: number): Instant {
    return this.instant(this.from + fraction * (this.to - this.from), fraction);
  }

  private instant(degrees: number, fraction: number): Instant {
    const angle = (degrees * Math.PI) / 180;
    const { releaseSpeed, launchHeight } = this.machine;
    return {
      time: 0,
      step: 0,
      fraction,
      segment: 0,
      x: 0,
      y: launchHeight,
      vx: releaseSpeed * Math.cos(angle),
      vy: releaseSpeed * Math.sin(angle),
      slingAngle: 0,
      hangUp: false,
      afterSlack: false,
      stop: "none",
    };
  }
}

function drawing({ releaseSpeed, launchAngle, launchHeight }: Measured): Drawing {
  const release: Point = [0, launchHeight];
  // One tenth of a second of flight, so that the arrow's length says the speed.
  const head = away(release, launchAngle, releaseSpeed * 0.1);
  const level: Point = [Math.max(1.5, Math.abs(head[0]) * 0.6), launchHeight];
  return {
    parts: [
      { type: "ghost", points: [release, level] },
      { type: "arrow", points: [release, head] },
      { type: "projectile", centre: release },
    ],
    marks: [
      { parameter: "releaseSpeed", type: "spot", at: between(release, head, 0.7), dx: -34, dy: 22 },
      { parameter: "launchAngle", type: "angle", vertex: release, radius: 70, from: 0, to: launchAngle },
      { parameter: "launchHeight", type: "span", from: [0, 0], to: release, offset: 22 },
    ],
    extent: [head, release, level, [-1, 0], [1, 0]],
    note: "To scale; the arrow is the way of a tenth of a second.",
  };
}
