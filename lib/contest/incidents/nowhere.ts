import type { Compared } from "./compare";

/** Of a place that nothing can be held against: it counts as outside. */
export const NOWHERE: Compared = {
  latitude: null,
  longitude: null,
  uncertainty: null,
  zone: null,
  outside: true,
  foreseen: null,
  beyondModel: false,
  warnings: [
    "The machine stood at no firing point then, as far as this program knows: nothing can be held against its zone.",
  ],
};
