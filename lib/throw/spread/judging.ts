/**
 * How far one more throw may go by the marks of others, so that one or two odd ones among them hide nothing. The centre is
 * the lower median of what efficiency each mark shows by itself: a minority of wrong marks, however wrong, moves it no
 * higher than the highest right one (P. J. Huber, E. M. Ronchetti, Robust Statistics, 2009, 1.4: from memory). Marks far
 * from it are left out of the least squares that the limit comes from, and no scatter lifts the limit above a fixed share.
 */
import type { MeasuredThrow } from "../contracts/calibration";
import { type Explained, fitOf, lowerMedian, predict, type Response } from "./efficiency";
import { studentQuantile } from "./student";

/** A throw that goes farther than this share beyond the centre is an alarm, whatever the others scatter. */
const MOST_BEYOND = 0.2;
/** By how much wind and mass of a throw may lengthen what is expected at the declared ones. */
const MOST_CREDIT = 0.15;
/** Beyond a throw without any loss at the declared numbers, for what these are not known. */
const MOST_GAIN = 0.25;
/** So many odd ones among those near the centre are seen through, where at least so many are at hand. */
const ODD = 2;
const FEWEST_LEFT = 4;
/** Degrees of freedom at which Student's distribution is the normal one. */
const MANY = 200;
/** Standard, m, of a mark of which nobody says how well it is known: a tape to a mark in grass. Common practice, no source. */
const UNSTATED = 0.3;

export interface Judge extends Explained {
  /** That explains this mark alone. */
  efficiency: number;
}

/** Nobody knows a mark exactly: 0 counts as not stated. */
export const statedOf = ({ uncertainty }: Pick<MeasuredThrow, "uncertainty">): number =>
  uncertainty > 0 ? uncertainty : UNSTATED;

/** Known worse (standard) than how far beyond the others an alarm may be: beside others it judges none. */
export const isVague = (measured: Pick<MeasuredThrow, "uncertainty" | "distance">): boolean =>
  statedOf(measured) > Math.max(MOST_BEYOND * measured.distance, UNSTATED);

export interface Limits {
  distance: number;
  upper99: number;
}

/** @returns null where nobody judges */
export function limitsBy(judges: readonly Judge[], response: Response): Limits | null {
  if (judges.length === 0) return null;
  const centre = lowerMedian(judges.map(({ efficiency }) => efficiency));
  const near = judges.filter(
    ({ efficiency, distance, response }) =>
      efficiency === centre || Math.abs(distance - response.at(centre)) <= MOST_BEYOND * distance,
  );
  const all = fitOf(near);
  const { distance, upper99 } = predict(all, response);
  let most = Math.min(upper99 ?? Infinity, raised(response.at(centre), MOST_BEYOND));
  // The lowest of the limits with and without those that fit worst.
  const left = [...near];
  let fit = all;
  while (left.length >= FEWEST_LEFT && near.length - left.length < ODD) {
    left.splice(worstOf(left, fit.efficiency), 1);
    fit = fitOf(left);
    const scatter = fit.scatter === null ? null : fit.scatter / keptSpread(left.length / near.length);
    most = Math.min(most, predict({ ...fit, scatter }, response).upper99 ?? Infinity);
  }
  return { distance, upper99: most };
}

/**
 * Standard deviation of what is left of a normal distribution without its outermost parts, as a share of the whole one's:
 * 1 − 2 c φ(c) / P for |z| < c, of chance P (closed form). Within 5 % of 40 000 sets each of 4 to 20 numbers.
 */
function keptSpread(share: number): number {
  const c = studentQuantile(0.5 + 0.5 * share, MANY);
  const density = Math.exp(-0.5 * c * c) / Math.sqrt(2 * Math.PI);
  return Math.sqrt(1 - (2 * c * density) / share);
}

/** The one that lies farthest from a fit. */
function worstOf(judges: readonly Judge[], efficiency: number): number {
  const off = judges.map(({ distance, response }) => Math.abs(distance - response.at(efficiency)));
  return off.indexOf(Math.max(...off));
}

/** Farther by a share; a distance may be negative. */
const raised = (distance: number, share: number): number => distance + share * Math.abs(distance);

type Fly = (efficiency: number) => number;

/** What a mark is held against: `most` is where the alarm begins. */
export interface Held {
  limits: Limits | null;
  most: number;
}

/**
 * @param fly in the wind and with the projectile that were written down for it
 * @param plain in those that were declared
 */
export function limitOf(
  judges: readonly Judge[],
  fly: Fly | null,
  plain: Fly | null,
  responseOf: (fly: Fly) => Response,
): Held {
  const limits = fly && limitsBy(judges, responseOf(fly));
  const declared = plain && plain !== fly ? limitsBy(judges, responseOf(plain)) : null;
  const lossless = plain ? plain(1) : 0;
  return {
    limits,
    most: Math.min(
      limits?.upper99 ?? Infinity,
      declared ? Math.max(declared.upper99, raised(declared.distance, MOST_CREDIT)) : Infinity,
      // One that throws backwards as meant is held against the others alone.
      lossless > 0 ? raised(lossless, MOST_GAIN) : Infinity,
    ),
  };
}
