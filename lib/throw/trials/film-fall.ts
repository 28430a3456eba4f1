/** What the fall of the points says of a film: whether its time, its scale and its level can be right. */
import type { Told } from "./throw-fit";

/**
 * `agrees`: the points fall as they must. `time`: they fall too slowly or too fast, so time or scale is wrong. `leans`:
 * they fall aslant, so the picture is turned. `open`: they tell too little, and the frame rate is not checked.
 */
export type FallVerdict = "agrees" | "time" | "leans" | "open";

export interface FilmFall {
  verdict: FallVerdict;
  /** As a multiple of gravity; null below three points. */
  size: Told | null;
  /** Degrees off straight down, positive ahead of it; null below three points. */
  tilt: Told | null;
}

const RADIAN = Math.PI / 180;

/** A fall further off than this many expanded uncertainties is no chance: one film in a hundred by itself. */
const SURE = 1.3;
/** With an uncertainty of half of gravity, the time scale is known to a quarter. */
export const ENOUGH = 0.5;

/** @param down and ahead, m/s², with their expanded uncertainties */
export function fallJudged(down: Told, ahead: Told, gravity: number): FilmFall {
  const all = Math.hypot(down.value, ahead.value);
  const leans = Math.abs(ahead.value) > SURE * ahead.uncertainty || down.value < -SURE * down.uncertainty;
  const size = {
    value: leans ? all : down.value,
    uncertainty: Math.max(down.uncertainty, ahead.uncertainty),
  };
  if (!leans) size.uncertainty = down.uncertainty;
  const tilt = {
    value: Math.atan2(ahead.value, down.value) / RADIAN,
    uncertainty: Math.min(180, ahead.uncertainty / Math.max(all, 1e-9) / RADIAN),
  };
  const off = Math.abs(size.value - gravity) > SURE * size.uncertainty;
  return {
    verdict: leans ? "leans" : off ? "time" : size.uncertainty > ENOUGH * gravity ? "open" : "agrees",
    size: { value: size.value / gravity, uncertainty: size.uncertainty / gravity },
    tilt,
  };
}

export const noFall: FilmFall = { verdict: "open", size: null, tilt: null };
