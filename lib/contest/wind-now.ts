/** Which wind counts now: the readings in force, and the air that hazard sheets are computed for. */
import type { WindLimit } from "../api/contracts";
import type { Database } from "../db";
import { windAt } from "../earth";
import type { Air } from "../throw";

/** Speeds are compared at this height, m: the usual one of anemometers. */
const COMPARED_AT = 10;

/** What of a reading decides. */
export interface MeasuredWind {
  speed: number;
  gust: number;
  height: number;
  observer: string;
}

/**
 * The readings that have not expired and that nobody has taken back, the strongest gust first. Whoever read the wind at
 * a post corrects that by reading it there again, and so does the safety officer; a calmer one from elsewhere, or from
 * another who calls their post the same, takes nothing back.
 */
export async function readingsInForce(db: Database, contestId: string, now: Date) {
  const readings = await db.windReading.findMany({
    where: { contestId, observedAt: { lte: now }, expiresAt: { gt: now } },
    orderBy: [{ observedAt: "desc" }, { createdAt: "desc" }],
    include: { badge: { select: { label: true, role: true } } },
  });
  const over = new Set<string>();
  return readings
    .filter(({ observer, badgeId, badge }) => {
      const post = observer.toLowerCase();
      const inForce = !over.has(post) && !over.has(`${badgeId} ${post}`);
      over.add(badge.role === "safety-officer" ? post : `${badgeId} ${post}`);
      return inForce;
    })
    .sort((a, b) => gustAtTen(b) - gustAtTen(a));
}

const gustAtTen = ({ gust, height }: { gust: number; height: number }) => windAt(COMPARED_AT, gust, height);

/** The strongest wind in which machines may fire; still air where none is set. */
export function limitOf(air: Air): WindLimit {
  const { speed = 0, gust = speed, height = COMPARED_AT } = air.wind ?? {};
  return { speed, gust, height };
}

/** A wind as it would be at another height, by the power law. */
export const windAtHeight = (
  wind: { speed: number; gust: number; height: number },
  height: number,
): WindLimit => ({
  speed: windAt(height, wind.speed, wind.height),
  gust: windAt(height, wind.gust, wind.height),
  height,
});

/** Whether a wind passes the limit: its gust does, since that is what carries the worst throws. */
export const isBeyond = (wind: { gust: number; height: number }, limit: WindLimit): boolean =>
  gustAtTen(wind) > gustAtTen(limit) * (1 + 1e-9);

/**
 * The air that sheets are computed for: the contest's, and where a reading in force is stronger than the limit, that
 * wind at its own height. Never less than the limit. The direction stays: worst throws take the gust the bad way.
 *
 * @param readings in force, the strongest first
 */
export function effectiveAir(air: Air, readings: readonly MeasuredWind[]): Air {
  const [strongest] = readings;
  const limit = limitOf(air);
  if (!strongest || !isBeyond(strongest, limit)) return air;
  const { gust, height } = strongest;
  const speeds = [limit, ...readings].map((wind) => windAtHeight(wind, height).speed);
  const speed = Math.min(gust, Math.max(...speeds));
  return { ...air, wind: { direction: air.wind?.direction ?? 0, speed, gust, height } };
}
