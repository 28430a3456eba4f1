/** Accident replay: landings that the engine itself makes must be traced back to what made them. */
import fc from "fast-check";
import { describe, expect, test } from "vitest";
import {
  type Explanation,
  hazardSheet,
  MACHINE_KINDS,
  machineKind,
  type Replay,
  replay,
  replayRequestSchema,
  replaySchema,
} from "@/lib/throw";
import { nominalAir, workOut } from "@/lib/throw/case";
import { hazardRequestSchema } from "@/lib/throw/contracts";
import { faults } from "@/lib/throw/faults/faults";
import { Flight } from "@/lib/throw/flight/flight";
import { runOut } from "@/lib/throw/flight/runout";
import type { Instant } from "@/lib/throw/release";
import { FAULT_OF } from "@/lib/throw/replay/failures";

const requestOf = (kind: string, more: object = {}) => {
  const { example, exampleProjectile } = machineKind(kind as Parameters<typeof machineKind>[0]);
  return hazardRequestSchema.parse({ machine: example, projectile: exampleProjectile, ...more });
};
/** No tolerances: nothing but the declared machine. */
const exactly = (kind: string) => {
  const { parameters } = machineKind(kind as Parameters<typeof machineKind>[0]);
  return Object.fromEntries(
    ["mass", "diameter", ...parameters.map(({ name }) => name)].map((name) => [name, 0]),
  );
};
const asked = (request: object, landing: object, more: object = {}) =>
  replayRequestSchema.parse({ request, landing, found: "projectile", ...more });

/** Where an instant lands with its velocity turned to the right and its plane turned, rad, in the mean wind. */
function landingOf(
  request: ReturnType<typeof requestOf>,
  { x, y, vx, vy }: Instant,
  velocity = 0,
  plane = 0,
) {
  const speed = Math.hypot(vx, vy) * Math.sin(velocity);
  const kept = Math.cos(velocity);
  const impact = new Flight().fly(nominalAir(request), x, y, vx * kept, vy * kept, speed);
  const [cos, sin] = [Math.cos(plane), Math.sin(plane)];
  return { ...impact, downrange: impact.x * cos - impact.z * sin, aside: impact.x * sin + impact.z * cos };
}

const fitting = ({ explanations }: Replay) => explanations.filter(({ fits }) => fits);
const near = (time: number, within: number) => (each: Explanation) =>
  each.time !== null && Math.abs(each.time - time) <= within;

/** Instants of the first pass before the nominal one, of the hang-up, and after a slack sling where there is one. */
function instantsOf(request: ReturnType<typeof requestOf>) {
  const { releases } = workOut(request);
  const { list, nominal } = releases;
  const flies = list.filter(({ y, vy, vx }) => y > 0.3 && vy > 2 && Math.abs(vx) > 4);
  const pick = (from: Instant[], share: number) => from[Math.floor(share * (from.length - 1))];
  const at = nominal?.time ?? 0;
  const early = flies.filter(({ hangUp, time }) => !hangUp && time < at - 0.03);
  const late = flies.filter(({ hangUp, time }) => !hangUp && time > at + 0.03);
  const hung = flies.filter(({ hangUp, time }) => hangUp && time < at + 1.5);
  return [pick(early, 0.6), pick(late, 0.5), pick(hung, 0.1)].filter((each) => each !== undefined);
}

describe.each(["hinged-counterweight", "fixed-counterweight", "floating-arm"])("%s", (kind) => {
  const request = requestOf(kind, { air: { wind: { speed: 3, direction: 70 } } });

  test("finds the instant of a release let go early, late or hung up, aimed a little off", () => {
    const instants = instantsOf(request);
    expect(instants.length).toBeGreaterThanOrEqual(2);
    for (const instant of instants) {
      const { downrange, aside } = landingOf(request, instant, 0, (4 * Math.PI) / 180);
      const answer = replay(asked(request, { downrange, aside, uncertainty: 0.5 }));
      expect(answer.verdict).toBe("explained");
      const found = fitting(answer).find(near(instant.time, 0.005));
      expect(
        found,
        `${instant.time} of ${answer.explanations.map((each) => each.text).join("\n")}`,
      ).toBeTruthy();
      expect(found?.cause === "hang-up").toBe(instant.hangUp);
      expect(Math.abs(found?.turn ?? 0)).toBeLessThanOrEqual(8);
      // The quick flight that finds the instants errs by about 1e-3 of the distance at the edge of a step.
      expect(found?.miss).toBeLessThan(0.2);
    }
  });

  test("a landing far aside needs a deflection, found with its angle", () => {
    const [instant] = instantsOf(request);
    const turned = (15 * Math.PI) / 180;
    const { downrange, aside } = landingOf(request, instant, turned);
    const answer = replay(asked(request, { downrange, aside, uncertainty: 0.5 }));
    for (const each of fitting(answer)) expect(each.turnBy).toBe("torn-sling");
    const found = fitting(answer).find(near(instant.time, 0.02));
    expect(found?.turn).toBeCloseTo(15, 0);
  });

  test("where it came to rest is traced back through bounce and roll", () => {
    const { nominal } = workOut(request).releases;
    const impact = landingOf(request, nominal as Instant);
    const level = Math.hypot(impact.vx, impact.vz);
    const rolled = runOut(level, impact.vy, "firm", nominalAir(request).gravity);
    const rest = {
      downrange: impact.downrange + (rolled * impact.vx) / level,
      aside: impact.aside + (rolled * impact.vz) / level,
      uncertainty: 0.5,
    };
    const [first] = replay(asked(request, rest, { place: "rest" })).explanations;
    expect(first).toMatchObject({ cause: "as-meant", fits: true, tolerance: { share: 0 } });
    expect(first.impact.downrange).toBeCloseTo(impact.downrange, 1);
  });
});

test("the throw as meant comes first where it lands, and a little short of it uses little", () => {
  const request = requestOf("hinged-counterweight");
  const { nominal } = workOut(request).releases;
  const { downrange } = landingOf(request, nominal as Instant);
  const [first] = replay(asked(request, { downrange, aside: 0, uncertainty: 1 })).explanations;
  expect(first).toMatchObject({ cause: "as-meant", fits: true, air: { name: "mean" }, turnBy: "none" });
  const short = replay(asked(request, { downrange: 0.97 * downrange, aside: 0, uncertainty: 0.5 }));
  expect(short.explanations[0]).toMatchObject({ cause: "as-meant", fits: true });
  expect(short.explanations[0].tolerance.share).toBeLessThan(0.6);
  expect(short.hold).toBe(false);
});

test("nearly as far as the worst throw only with the tolerances; beyond it nothing, and the range holds", () => {
  const request = requestOf("hinged-counterweight", {
    tolerances: { ...exactly("hinged-counterweight"), counterweightMass: 20, slingLength: 0.1 },
  });
  const { worst } = hazardSheet(request);
  const { corner, allowance } = worst.backward;
  const distance = worst.backward.distance / (1 + allowance);
  expect(Object.keys(corner).length).toBeGreaterThan(0);
  const inside = replay(
    asked(request, { distance: 0.99 * distance, direction: 180, uncertainty: 0.5 }),
    worst,
  );
  expect(fitting(inside).length).toBeGreaterThan(0);
  for (const each of fitting(inside)) expect(each.tolerance.share).toBeGreaterThan(0.2);
  const outside = replay(
    asked(request, { distance: 1.1 * worst.backward.distance, direction: 180, uncertainty: 1 }),
    worst,
  );
  expect(outside).toMatchObject({ verdict: "unexplained", hold: true });
  expect(outside.text).toMatch(/model is wrong.*range holds/i);
  expect(fitting(outside)).toEqual([]);
  for (const { miss } of outside.explanations) expect(miss).toBeGreaterThan(1);
});

test.each(["hinged-counterweight", "floating-arm", "torsion", "spinning-arm", "tension", "air-cannon"])(
  "the farthest pieces of a failing %s are found as such",
  (kind) => {
    const request = requestOf(kind);
    const pieces = faults(request, workOut(request))
      .filter(({ code }) => code !== "projectile-bursts")
      .flatMap((fault) => fault.pieces.map((piece) => ({ fault: fault.code, ...piece })));
    expect(pieces.length).toBeGreaterThan(0);
    for (const { fault, name, way, distance } of pieces) {
      expect(FAULT_OF[name], name).toBe(fault);
      if (way === "side" || distance < 3) continue;
      const direction = way === "forward" ? 10 : 170;
      const place = { distance: 0.9 * distance, direction, uncertainty: 1 };
      const answer = replay(asked(request, place, { found: "machine" }));
      expect(
        fitting(answer).map((each) => each.fault),
        `${name} ${way} ${distance}`,
      ).toContain(fault);
    }
  },
);

test("half of a projectile that broke up is told from the whole", () => {
  const request = requestOf("hinged-counterweight");
  const { nominal } = workOut(request).releases;
  const half = { mass: request.projectile.mass / 2, diameter: request.projectile.diameter * Math.cbrt(0.5) };
  const broken = { ...request, projectile: { ...half, shape: "irregular" as const } };
  const { downrange } = landingOf(broken, nominal as Instant);
  const answer = replay(asked(request, { downrange, aside: 0, uncertainty: 0.5 }, { found: "piece" }));
  expect(fitting(answer)[0]).toMatchObject({ cause: "as-meant", load: "piece" });
  for (const { load } of answer.explanations) expect(load).not.toBe("declared");
});

test("either way of giving the place is the same place, and neither or both are refused with the field", () => {
  const request = requestOf("measured");
  const polar = replay(asked(request, { distance: 50, direction: 30 }));
  const plane = replay(asked(request, { downrange: 50 * Math.cos(Math.PI / 6), aside: 25 }));
  expect(polar.target.aside).toBeCloseTo(plane.target.aside, 9);
  const paths = (landing: object) =>
    replayRequestSchema
      .safeParse({ request, landing })
      .error?.issues.map(({ path }) => path.join("."))
      .sort();
  expect(paths({})).toEqual(["landing.direction", "landing.distance"]);
  expect(paths({ downrange: 3 })).toEqual(["landing.aside"]);
  expect(paths({ downrange: 3, aside: 1, distance: 3 })).toEqual(["landing.distance"]);
});

test("where a broken part fits as well as a throw as meant the range holds, and no part modelled is said so", () => {
  const request = requestOf("hinged-counterweight");
  const { nominal } = workOut(request).releases;
  const { downrange } = landingOf(request, nominal as Instant);
  for (const [uncertainty, broken] of [
    [3, false],
    [150, true],
  ] as const) {
    const answer = replay(asked(request, { downrange, aside: 0, uncertainty }, { found: "unknown" }));
    const causes = fitting(answer).map(({ cause }) => cause);
    expect(causes[0]).toBe("as-meant");
    expect(causes.includes("fault")).toBe(broken);
    expect(answer.hold).toBe(broken);
  }
  const part = replay(asked(requestOf("measured"), { distance: 20, direction: 0 }, { found: "machine" }));
  expect(part).toMatchObject({ verdict: "unexplained", hold: true, explanations: [] });
  expect(part.text).toMatch(/No part of this kind of machine is modelled/);
});

test("what is let go at rest in a crosswind does not stop the search", () => {
  const request = requestOf("tension", { air: { wind: { speed: 4, gust: 8, direction: 50 } } });
  const answer = replay(asked(request, { distance: 1.5, direction: 0, uncertainty: 1 }));
  expect(replaySchema.parse(answer)).toEqual(answer);
  expect(answer.explanations.length).toBeGreaterThan(0);
});

test("the same question has the same answer", () => {
  const request = requestOf("torsion", { tolerances: exactly("torsion") });
  const question = asked(request, { distance: 40, direction: 200 }, { found: "unknown" });
  expect(replay(question)).toEqual(replay(question));
});

test("any place around any kind has finite numbers that hold the contract, in order", () => {
  const property = fc.property(
    fc.constantFrom(...MACHINE_KINDS),
    fc.double({ min: 0, max: 400, noNaN: true }),
    fc.integer({ min: -180, max: 180 }),
    fc.constantFrom("projectile", "piece", "machine", "unknown"),
    fc.constantFrom("impact", "rest"),
    (kind, distance, direction, found, place) => {
      // Exact machines: what is to hold here does not hang on the search of the tolerances.
      const request = {
        machine: kind.example,
        projectile: kind.exampleProjectile,
        tolerances: exactly(kind.kind),
        air: { wind: { speed: 4, gust: 8, direction: 50 } },
        terrain: { below: 2, slope: 3, crossSlope: 1 },
      };
      const answer = replay(asked(request, { distance, direction, uncertainty: 1 }, { found, place }));
      // zod refuses NaN and what is not finite.
      expect(replaySchema.parse(answer)).toEqual(answer);
      const fits = fitting(answer);
      expect(answer.verdict).toBe(fits.length > 0 ? "explained" : "unexplained");
      expect(answer.explanations.slice(0, fits.length)).toEqual(fits);
      expect(fits.map(({ need }) => need)).toEqual(fits.map(({ need }) => need).sort((a, b) => a - b));
      for (const { miss } of fits) expect(miss).toBeLessThanOrEqual(1);
    },
  );
  fc.assert(property, { numRuns: 20, seed: 7 });
});
