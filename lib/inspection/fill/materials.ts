/**
 * What a counterweight is filled with. Grains of a density with gaps between them, empty or full of water. Loose fills
 * differ by a tenth from heap to heap: a scale decides.
 */

export const FILLS = ["water", "dry-sand", "wet-sand", "gravel", "stone-and-sand", "own"] as const;
export type FillName = (typeof FILLS)[number];

export interface Fill {
  /** Of the grains, kg/m³; of the liquid itself where there are none. */
  density: number;
  /** Share of the volume that is gaps between the grains. */
  voids: number;
  /** Whether water stands in the gaps. */
  soaked: boolean;
  /** Whether it flows: no motion of it in the drum is modelled. */
  flows: boolean;
  source: string;
}

export const WATER = 1000;

const MINERAL = "grains of quartz or limestone, gaps by handbook: from memory";

export const FILL: Record<Exclude<FillName, "own">, Fill> = {
  water: {
    density: WATER,
    voids: 0,
    soaked: false,
    flows: true,
    source: "fresh water: handbook, from memory",
  },
  "dry-sand": { density: 2650, voids: 0.38, soaked: false, flows: true, source: MINERAL },
  "wet-sand": { density: 2650, voids: 0.38, soaked: true, flows: false, source: MINERAL },
  gravel: { density: 2650, voids: 0.4, soaked: false, flows: false, source: MINERAL },
  "stone-and-sand": {
    density: 2650,
    voids: 0.185,
    soaked: false,
    flows: false,
    source: "as a 55 US gallon drum of it is found to weigh, packed: common practice, no source",
  },
};

/** Mass of a volume filled with it, kg/m³. */
export const bulkDensity = ({ density, voids, soaked }: Pick<Fill, "density" | "voids" | "soaked">): number =>
  density * (1 - voids) + (soaked ? WATER * voids : 0);
