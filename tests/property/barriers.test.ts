/**
 * Barriers against brute force: a machine of known speed without air throws parabolas, turned by aim, lean and a torn
 * sling leg. Whatever does not strike a barrier on its way lands, with the margin, inside the zone.
 */
import fc from "fast-check";
import { expect, it } from "vitest";
import { defaultPolicy, hazardRequestSchema, hazardSheet } from "@/lib/throw";
import { between } from "./numbers";

const G = 9.80665;
const RADIAN = Math.PI / 180;
const { margin, angles } = defaultPolicy;
const EXACT = { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 };

const foot = fc.record({ downrange: between(-60, 90), aside: between(-60, 60) });
const barrier = fc.record({ height: between(0.6, 20), line: fc.array(foot, { minLength: 2, maxLength: 4 }) });

interface Foot {
  downrange: number;
  aside: number;
}

/** Where a level ray from the firing point meets a stretch, m along it; NaN where it does not. */
function meets(azimuth: number, a: Foot, b: Foot): number {
  const side = ({ downrange, aside }: Foot) =>
    aside * Math.cos(azimuth * RADIAN) - downrange * Math.sin(azimuth * RADIAN);
  const [from, to] = [side(a), side(b)];
  if (from * to > 0 || from === to) return Number.NaN;
  const share = from / (from - to);
  const along = ({ downrange, aside }: Foot) =>
    downrange * Math.cos(azimuth * RADIAN) + aside * Math.sin(azimuth * RADIAN);
  const at = along(a) + share * (along(b) - along(a));
  return at > 0 ? at : Number.NaN;
}

it("never cuts off what no barrier strikes", () => {
  fc.assert(
    fc.property(
      between(8, 35),
      between(2, 60),
      between(0.5, 6),
      fc.array(barrier, { minLength: 1, maxLength: 3 }),
      (speed, angle, height, barriers) => {
        const request = hazardRequestSchema.parse({
          machine: { kind: "measured", releaseSpeed: speed, launchAngle: angle, launchHeight: height },
          projectile: { mass: 4, diameter: 0.2, lift: 0 },
          tolerances: EXACT,
          air: { pressure: 0 },
          policy: { minimum: { forward: 1, backward: 1, side: 1 } },
          barriers,
        });
        const { reach } = hazardSheet(request).exclusion;
        const up = speed * Math.sin(angle * RADIAN);
        for (let torn = -angles.tornSling; torn <= angles.tornSling; torn += 2.5) {
          const cos = Math.cos(torn * RADIAN);
          const level = Math.hypot(speed * Math.cos(angle * RADIAN) * cos, speed * Math.sin(torn * RADIAN));
          const own = Math.atan2(Math.sin(torn * RADIAN), Math.cos(angle * RADIAN) * cos) / RADIAN;
          const rise = up * cos;
          const lands = (level * (rise + Math.sqrt(rise * rise + 2 * G * height))) / G;
          const heightAt = (d: number) => height + (rise * d) / level - (G * d * d) / (2 * level * level);
          for (let turn = -angles.aim - angles.lean; turn <= angles.aim + angles.lean; turn += 2) {
            const azimuth = own + turn;
            const struck = barriers.some((wall) =>
              wall.line.slice(1).some((to, i) => {
                const at = meets(azimuth, wall.line[i] as Foot, to);
                return at <= lands && heightAt(at) <= wall.height;
              }),
            );
            if (struck) continue;
            // What bounces against a barrier behind its landing is stopped there: the landing itself is not.
            const kept = reach[(Math.round(azimuth) + 360) % 360] as number;
            const behind = Math.min(
              ...barriers
                .flatMap((wall) =>
                  wall.line.slice(1).map((to, i) => meets(azimuth, wall.line[i] as Foot, to)),
                )
                .filter((at) => at >= lands),
              Number.POSITIVE_INFINITY,
            );
            expect(kept).toBeGreaterThan(Math.min(margin * lands, behind) * 0.995);
          }
        }
      },
    ),
    { numRuns: 150 },
  );
});
