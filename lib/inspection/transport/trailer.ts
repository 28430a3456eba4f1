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
}

export interface TrailerLoads {
  /** kg */
  gross: number;
  load: number;
  /** Pressing down on the hitch, kg; negative lifts it. */
  hitch: number;
  axle: number;
  /** Of the gross mass that presses on the hitch. */
  share: number;
  verdict: "light" | "usual" | "heavy";
  /** By how much the whole load must go towards the hitch (negative: away) for the middle of the usual share, m. */
  shift: number | null;
}

/** Share of the gross mass on the hitch. Common practice, no source. */
export const USUAL_SHARE = [0.1, 0.15] as const;

export function trailerLoads({ axle, empty, items }: Trailer): TrailerLoads {
  const load = items.reduce((sum, { mass }) => sum + mass, 0);
  const gross = empty.mass + load;
  const hitch = empty.hitch + items.reduce((sum, { mass, at }) => sum + (mass * (axle - at)) / axle, 0);
  const share = gross > 0 ? hitch / gross : 0;
  const [least, most] = USUAL_SHARE;
  const wanted = (gross * (least + most)) / 2;
  return {
    gross,
    load,
    hitch,
    axle: gross - hitch,
    share,
    verdict: share < least ? "light" : share > most ? "heavy" : "usual",
    shift: load > 0 ? ((wanted - hitch) * axle) / load : null,
  };
}
