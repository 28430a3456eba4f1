/**
 * Measured throws explained by one number, the efficiency η: the share of the model's energy at release that the
 * projectile really gets, so that it leaves where and in the direction that the model says with √η of its speed. η is
 * the least-squares solution over all marks, each flown in its own wind, with its own projectile, from its own settings;
 * its standard uncertainty, the scatter and the prediction of a next throw follow as in JCGM 100:2008, H.3:
 * s² = Σ residual² / (n − 1), u(η) = s / √Σ f′², and one more throw lies below f + t₀.₉₉ s √(1 + f′² / Σ f′²) in 99 of
 * 100 cases, f′ the slope of distance against η and t Student's for n − 1 degrees of freedom.
 */
import { moved, nominalAir, nominalReasonOf } from "../case";
import { refusals } from "../check";
import type { MeasuredThrow } from "../contracts/calibration";
import type { HazardRequest } from "../contracts/request";
import { type Air, Flight } from "../flight/flight";
import { fallThroughZero } from "../numeric/root";
import type { Instant } from "../release";
import { orNull } from "../tuning/evaluate";
import { isInRange, withValues } from "../tuning/knobs";
import { meantFrame } from "../worst/box";
import { studentQuantile } from "./student";

/** Beyond it no loss and no gain explains a mark. */
const LARGEST_EFFICIENCY = 4;
const LEAST_EFFICIENCY = 1e-3;
const UPPER = 0.99;

/** How one throw differed from the request. */
export type Circumstances = Pick<MeasuredThrow, "wind" | "mass" | "settings" | "air" | "terrain">;

type Place = Pick<Circumstances, "air" | "terrain">;

/** Distance against efficiency for one wind, one projectile and one setting. */
export interface Response {
  at(efficiency: number): number;
  slope(efficiency: number): number;
}

export interface Mark {
  measured: MeasuredThrow;
  modelled: number | null;
  efficiency: number | null;
  fly: ((efficiency: number) => number) | null;
}

/** A mark that some efficiency explains. */
export interface Explained {
  distance: number;
  uncertainty: number;
  response: Response;
}

export interface Fit {
  efficiency: number;
  /** Null below two marks. */
  scatter: number | null;
  standardError: number | null;
  degrees: number;
  /** Σ f′². */
  leverage: number;
}

/** The model's throws as functions of the efficiency; one for all that share wind, projectile and settings. */
export class Flyers {
  private readonly flight = new Flight();
  private readonly places = new Map<string, { request: HazardRequest; air: Air }>();
  private readonly known = new Map<string, ((efficiency: number) => number) | null>();

  constructor(private readonly request: HazardRequest) {
    this.placed({});
  }

  /**
   * Downrange, backwards negative; null when the machine does not let such a projectile go, or cannot be computed as it
   * was set for this throw alone: one throw written down wrong must not hide what the others say.
   */
  of(put: Circumstances): ((efficiency: number) => number) | null {
    const { wind, mass, settings, air, terrain } = put;
    const own = { ...settings, ...(mass === undefined ? {} : { mass }) };
    const changed = { mass: this.request.projectile.mass, ...own };
    const key = JSON.stringify([wind ?? null, air ?? null, terrain ?? null, Object.entries(changed).sort()]);
    const found = this.known.get(key);
    if (found !== undefined) return found;
    const make = () => {
      if (Object.keys(own).length > 0 && this.isRefused(changed)) return null;
      const fly = this.make(put, changed);
      fly?.(1);
      return fly;
    };
    const fly = Object.keys(own).length > 0 ? orNull(make) : make();
    this.known.set(key, fly);
    return fly;
  }

  private isRefused(changed: Readonly<Record<string, number>>): boolean {
    const request = withValues(this.request, changed);
    return !isInRange(request) || refusals(request).length > 0;
  }

  /** Why a throw is null here, as a sentence. */
  reasonOf({ mass, settings }: Circumstances): string {
    const request = withValues(this.request, { ...settings, ...(mass === undefined ? {} : { mass }) });
    if (!isInRange(request)) return "One of its numbers is no number of such a machine.";
    const [refused] = refusals(request);
    if (refused) return refused.message;
    const found = orNull(() => {
      const { releases, trace } = moved(request, meantFrame(request));
      return nominalReasonOf(request, releases, trace);
    });
    return found ?? "Its numbers cannot be computed.";
  }

  /** The request in the air and over the ground of one throw. */
  private placed({ air, terrain }: Place): { request: HazardRequest; air: Air } {
    const key = JSON.stringify([air ?? null, terrain ?? null]);
    const found = this.places.get(key);
    if (found) return found;
    const { wind } = this.request.air ?? {};
    const request = {
      ...this.request,
      ...(air && { air: { ...air, ...(wind && { wind }) } }),
      ...(terrain && { terrain }),
    };
    const made = { request, air: nominalAir(request) };
    this.places.set(key, made);
    return made;
  }

  private make({ wind, ...place }: Circumstances, changed: Readonly<Record<string, number>>) {
    const { flight } = this;
    const there = this.placed(place);
    const instant = this.release(there.request, changed);
    if (!instant) return null;
    const air = { ...there.air, mass: changed.mass as number };
    if (wind) {
      const towards = (wind.direction * Math.PI) / 180;
      air.windX = wind.speed * Math.cos(towards);
      air.windZ = wind.speed * Math.sin(towards);
      air.anemometerHeight = wind.height;
    }
    const { x, y, vx, vy, z = 0, vz = 0 } = instant;
    return (efficiency: number) => {
      const share = Math.sqrt(efficiency);
      const impact = flight.fly(air, x, y, vx * share, vy * share, vz * share);
      // A throw backwards as meant explains no mark ahead.
      return Math.hypot(impact.x, impact.z + z) * (impact.x < 0 ? -1 : 1);
    };
  }

  private readonly releases = new Map<string, Instant | null>();
  private release(there: HazardRequest, changed: Readonly<Record<string, number>>): Instant | null {
    const key = JSON.stringify([there.air ?? null, Object.entries(changed).sort()]);
    const found = this.releases.get(key);
    if (found !== undefined) return found;
    const request = withValues(there, changed);
    const { nominal } = moved(request, meantFrame(request)).releases;
    this.releases.set(key, nominal);
    return nominal;
  }
}

export function markOf(measured: MeasuredThrow, flyers: Flyers): Mark {
  const fly = flyers.of(measured);
  if (!fly) return { measured, modelled: null, efficiency: null, fly };
  const { distance } = measured;
  const short = (efficiency: number) => distance - fly(efficiency);
  // Nearer than where it drops out of the sling, it was not thrown.
  const possible = distance > Math.abs(fly(LEAST_EFFICIENCY)) && short(LARGEST_EFFICIENCY) <= 0;
  const efficiency = possible ? fallThroughZero(short, LEAST_EFFICIENCY, LARGEST_EFFICIENCY) : null;
  return { measured, modelled: fly(1), efficiency, fly };
}

/** Of an even number the lower of the two in the middle. */
export function lowerMedian(values: readonly number[]): number {
  const sorted = [...values].sort((a, b) => a - b);
  return sorted[(sorted.length - 1) >> 1] as number;
}

export function fitOf(marks: readonly Explained[]): Fit {
  // The sum of residual × slope: what least squares bring to zero. It falls with η.
  const pull = (efficiency: number) =>
    marks.reduce(
      (sum, { distance, response }) =>
        sum + (distance - response.at(efficiency)) * response.slope(efficiency),
      0,
    );
  let from = LEAST_EFFICIENCY;
  let to = LARGEST_EFFICIENCY;
  for (let i = 0; i < 60; i++) {
    const middle = 0.5 * (from + to);
    if (pull(middle) > 0) from = middle;
    else to = middle;
  }
  const efficiency = 0.5 * (from + to);
  const degrees = marks.length - 1;
  const leverage = marks.reduce((sum, { response }) => sum + response.slope(efficiency) ** 2, 0);
  if (degrees === 0) return { efficiency, scatter: null, standardError: null, degrees, leverage };
  const squares = marks.reduce(
    (sum, { distance, response }) => sum + (distance - response.at(efficiency)) ** 2,
    0,
  );
  // Marks that agree better than they were measured agree by chance; one that is stated badly speaks for no other.
  const survey = lowerMedian(marks.map(({ uncertainty }) => uncertainty));
  const scatter = Math.max(Math.sqrt(squares / degrees), survey);
  return { efficiency, scatter, standardError: scatter / Math.sqrt(leverage), degrees, leverage };
}

export function predict({ efficiency, scatter, degrees, leverage }: Fit, response: Response) {
  const distance = response.at(efficiency);
  if (scatter === null) return { distance, upper99: null };
  const spread = scatter * Math.sqrt(1 + response.slope(efficiency) ** 2 / leverage);
  return { distance, upper99: distance + studentQuantile(UPPER, degrees) * spread };
}

/**
 * A smooth function as its Chebyshev series, so that fit after fit costs no flights; outside of the interval its value
 * and slope go on in a straight line.
 */
export function chebyshev(f: (x: number) => number, from: number, to: number, count = 16): Response {
  const middle = 0.5 * (from + to);
  const half = 0.5 * (to - from);
  const values = Array.from({ length: count }, (_, k) =>
    f(middle + half * Math.cos((Math.PI * (k + 0.5)) / count)),
  );
  const series = Array.from({ length: count }, (_, j) =>
    values.reduce(
      (sum, value, k) =>
        sum + ((j === 0 ? 1 : 2) / count) * value * Math.cos((Math.PI * j * (k + 0.5)) / count),
      0,
    ),
  );
  // c′ₖ₋₁ = c′ₖ₊₁ + 2 k cₖ, the first halved.
  const derived = new Array<number>(count + 1).fill(0);
  for (let k = count - 1; k > 0; k--) derived[k - 1] = derived[k + 1] + 2 * k * series[k];
  derived[0] /= 2;
  const sum = (coefficients: readonly number[], u: number) => {
    let [b1, b2] = [0, 0];
    for (let j = count - 1; j > 0; j--) [b1, b2] = [2 * u * b1 - b2 + coefficients[j], b1];
    return u * b1 - b2 + coefficients[0];
  };
  const inside = (x: number) => Math.min(1, Math.max(-1, (x - middle) / half));
  const slope = (x: number) => sum(derived, inside(x)) / half;
  return {
    slope,
    at: (x) => {
      const u = inside(x);
      return sum(series, u) + slope(x) * (x - (middle + half * u));
    },
  };
}
