/**
 * What hitch and axle of a trailer bear, from where its load lies: equilibrium of moments about the axle. The trailer
 * stands level; several axles count as one in their middle. Masses stand for their weights. Closed form.
 */

export interface TrailerItem {
  name: string;
  /** kg */
  mass: number;
  /** Of its centre of mass, m behind the hitch; ahead of it negative. */
  at: number;
}

export interface Trailer {
  /** Axle, or the middle of the axles, behind the hitch, m; positive. */
  axle: number;
  /** Without a load, kg: all of it, and what its hitch puts on a scale. */
  empty: { mass: number; hitch: number };
  items: readonly TrailerItem[];
  /** Of what lies on it where nobody has said yet, kg: it counts in the gross mass alone. */
  unplaced?: number;
}

export interface TrailerLoads {
  /** kg, with what has no place yet. */
  gross: number;
  /** What has a place, kg; so for all that follows. */
  load: number;
  /** Pressing down on the hitch, kg; negative lifts it. */
  hitch: number;
  axle: number;
  /** Of empty trailer and placed load what presses on the hitch. */
  share: number;
  verdict: "light" | "usual" | "heavy";
  /** By how much the whole load must go towards the hitch (negative: away) for the middle of the usual share, m. */
  shift: number | null;
}

/** Share of the gross mass on the hitch. Common practice, no source. */
export const USUAL_SHARE = [0.1, 0.15] as const;

export function trailerLoads({ axle, empty, items, unplaced = 0 }: Trailer): TrailerLoads {
  const load = items.reduce((sum, { mass }) => sum + mass, 0);
  const placed = empty.mass + load;
  const hitch = empty.hitch + items.reduce((sum, { mass, at }) => sum + (mass * (axle - at)) / axle, 0);
  const share = placed > 0 ? hitch / placed : 0;
  const [least, most] = USUAL_SHARE;
  const wanted = (placed * (least + most)) / 2;
  return {
    gross: placed + unplaced,
    load,
    hitch,
    axle: placed - hitch,
    share,
    verdict: share < least ? "light" : share > most ? "heavy" : "usual",
    shift: load > 0 ? ((wanted - hitch) * axle) / load : null,
  };
}
