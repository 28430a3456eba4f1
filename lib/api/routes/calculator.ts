/** The calculator: stateless, for anyone. */
import type { RouteInfo } from "./shapes";

const BUSY = {
  503: "Too many ask at once, or this machine takes too long; Retry-After says when to try again.",
};

export const CALCULATOR: readonly RouteInfo[] = [
  {
    method: "post",
    path: "/hazard",
    summary: "Compute a hazard sheet",
    description:
      "Stateless, for anyone, without a key. How far one machine throws as meant and on its worst day, and from where people must stay away. What it does not model is in `notModelled`. Failures may go farther: the safety officer and local codes decide.",
    body: "HazardRequest",
    answer: "HazardSheet",
    keyless: true,
    tellsProgress: true,
    refusals: BUSY,
  },
  {
    method: "post",
    path: "/dispersion",
    summary: "Compute where ordinary throws land",
    description:
      "Stateless, for anyone, without a key. Seeded draws within the tolerances and the wind, each let go as meant: percentiles, the ellipse, chances of crossing a line or entering an area with their standard errors. The same request gives the same numbers. It is no worst case and never makes a zone smaller.",
    body: "DispersionRequest",
    answer: "Dispersion",
    keyless: true,
    refusals: BUSY,
  },
  {
    method: "post",
    path: "/replay",
    summary: "Ask what explains where something landed",
    description:
      "Stateless, for anyone, without a key. Release instants, corners of the tolerances and failures of one machine that bring its projectile, a piece of it or a part of the machine down at a place, those first that need least to go wrong. Several may fit and none is proven; when nothing fits, the model or what was declared is wrong and the range holds.",
    body: "ReplayRequest",
    answer: "Replay",
    keyless: true,
    refusals: BUSY,
  },
];
