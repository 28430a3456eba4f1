/** Online tiles under the map: only where whoever runs the program has set an address, and the reader asks. */
export interface Tiles {
  /** With {z}, {x} and {y}, and {s} for one of a, b, c. */
  url: string;
  attribution: string;
}

/** Written in by next.config.js when the pages are built. */
export const TILES = JSON.parse(process.env.FAIRTHROW_TILES ?? "null") as Tiles | null;
