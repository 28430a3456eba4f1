/**
 * The zone's reach by azimuth against landings flown from its causes by the independent quick simulator: every release
 * instant, a torn sling's turn out of the plane, aim and lean around, margin × first impact + that throw's run-out.
 */
import { expect, it } from "vitest";
import { defaultPolicy, hazardRequestSchema, hazardSheet } from "@/lib/throw";
import { fairRequest } from "./independent/quick/fair-machines";
import { landingsOf, type SpaceWind } from "./independent/quick/zone";

const KINDS = ["hinged-counterweight", "fixed-counterweight", "floating-arm", "torsion"];
const { margin, angles, minimum } = defaultPolicy;
const TURN = angles.aim + angles.lean;
/** Error of the two ways of flying. */
const ROUNDING = 1.0005;
const PADDING = 1.08;
const STILL: SpaceWind = { along: 0, across: 0, up: 0, aside: 0 };

/** Gusts and lift the same way, slantwise and across. */
const GUSTS: SpaceWind[] = [
  { along: 1, across: 0, up: 1, aside: 0 },
  { along: 0.9, across: 0.43, up: 1, aside: 0 },
  { along: 0.7, across: 0.7, up: 0.7, aside: 0.7 },
  { along: -0.7, across: 0.7, up: 0.7, aside: 0.7 },
];

function exact(seed: number, lift = 0, wind?: object) {
  const { machine, projectile, tolerances, air } = fairRequest(seed, KINDS);
  const none = Object.fromEntries(Object.keys(tolerances ?? {}).map((name) => [name, 0]));
  return hazardRequestSchema.parse({
    machine: { ...machine, base: "fixed" },
    projectile: { ...projectile, lift },
    tolerances: none,
    air: { temperature: air?.temperature, pressure: air?.pressure, wind },
  });
}

it.each(KINDS.map((kind, seed) => [kind, seed + 4] as const))(
  "holds every landing of a %s and little more",
  (_kind, seed) => {
    const request = exact(seed);
    const { machine, projectile } = request;
    const load = { ...projectile, drag: projectile.drag?.low ?? 0, lift: 0 };
    const torn = Array.from({ length: 11 }, (_, i) => (angles.tornSling * i) / 10);
    const { exclusion, faults } = hazardSheet(request);
    const { reach } = exclusion;
    // Thrown pieces of the machine lie outside this check: where they may decide, only the landings are held.
    const sides = ["forward", "backward", "side"] as const;
    const pieces = Math.max(
      0,
      ...(faults ?? []).flatMap((fault) =>
        sides.map((side) => (margin - 1) * fault.reach[side] + Math.max(fault.reach[side], fault.rest[side])),
      ),
    );
    const own = new Float64Array(360);
    let outside = 0;
    for (const landing of landingsOf(machine, load, request, [STILL], margin, torn, 2)) {
      for (let turn = -TURN; turn <= TURN; turn++) {
        for (const azimuth of [landing.azimuth + turn, 360 - landing.azimuth + turn]) {
          const low = Math.floor(azimuth + 360) % 360;
          const high = (low + 1) % 360;
          const part = azimuth - Math.floor(azimuth);
          const limit = reach[low] * (1 - part) + reach[high] * part;
          outside = Math.max(outside, landing.reach / limit);
          own[low] = Math.max(own[low], landing.reach);
          own[high] = Math.max(own[high], landing.reach);
        }
      }
    }
    expect(outside).toBeLessThan(ROUNDING);
    const long = machine.kind === "torsion" ? machine.armLength : "longArm" in machine ? machine.longArm : 0;
    const sling = "slingLength" in machine ? (machine.slingLength ?? 0) : 0;
    reach.forEach((kept, azimuth) => {
      if (kept <= 1.001 * pieces) return;
      const off = Math.min(azimuth, 360 - azimuth);
      const least = off <= 45 ? minimum.forward : off >= 135 ? minimum.backward : minimum.side;
      const needed = Math.max(own[azimuth], least, margin * (long + sling));
      expect(kept / needed, `at ${azimuth}°`).toBeLessThan(PADDING);
    });
  },
);

it.each([9, 14, 15])("holds every landing in a gust from any side, machine %d", (seed) => {
  const request = exact(seed, 0.08, { speed: 5, gust: 10 });
  const { machine, projectile } = request;
  const load = { ...projectile, drag: projectile.drag?.low ?? 0, lift: 0.08 };
  const { reach } = hazardSheet(request).exclusion;
  const torn = [0, 0.25, 0.5, 0.75, 1].map((share) => share * angles.tornSling);
  let outside = 0;
  for (const landing of landingsOf(machine, load, request, GUSTS, margin, torn, 6)) {
    for (const turn of [-TURN, 0, TURN]) {
      const kept = reach[(Math.round(landing.azimuth + turn) + 360) % 360];
      outside = Math.max(outside, landing.reach / kept);
    }
  }
  expect(outside).toBeLessThan(ROUNDING);
});
