/** What lies on a site, as files carry it in and out. */
import type { GeoPoint } from "../earth";
import type { FeatureGeometry, FeatureKindName, FeatureRule } from "../zones";

/** Said in every refusal that they cause. */
export const LIMITS = {
  /** Bytes of a file. */
  file: 5 * 1024 * 1024,
  /** Bytes of a KMZ's text, unpacked. */
  inflated: 20 * 1024 * 1024,
  /** Entries of a KMZ. */
  entries: 200,
  /** Places of a file. */
  items: 5000,
  /** Corners of one line or outline. */
  corners: 2000,
  /** Corners of all lines and outlines of a file. */
  allCorners: 100_000,
} as const;

export const FORMATS = ["geojson", "kml", "kmz", "gpx", "csv"] as const;
export type Format = (typeof FORMATS)[number];

export const WHATS = ["feature", "firing-point", "control-point", "spot-height"] as const;
export type What = (typeof WHATS)[number];

/** What a height counts from. Receivers and earth viewers count from the mean sea level, Fairthrow from the ellipsoid. */
export type HeightFrom = "ellipsoid" | "sea-level";

interface Described {
  /** Where it stands in the file: "feature 3", "row 7". */
  where: string;
  what: What;
  /** Of a feature; null where the file does not say, and a person must. */
  kind: FeatureKindName | null;
  name: string;
  /** m; of points alone. */
  height: number | null;
  heightFrom: HeightFrom;
  /** m; null takes the kind's. */
  standOff: number | null;
  rule: FeatureRule | null;
  /** Of a firing point. */
  number: number | null;
  /** m; of a firing point or a control point. */
  accuracy: number | null;
  /** Degrees true; of a firing point with one machine, as practice yards have them. */
  bearing: number | null;
  note: string;
}

/** A place to bring in. With a problem it cannot be; warnings say what was repaired or looks odd. */
export interface SiteItem extends Described {
  /** As it would be kept; null when it cannot be used. */
  geometry: FeatureGeometry | null;
  warnings: string[];
  problem: string | null;
}

/** A place as a reader found it: nothing is checked yet. */
export interface RawPlace {
  where: string;
  name: string;
  /** GeoJSON, or whatever stood in its place. */
  geometry: unknown;
  heightFrom: HeightFrom;
  /** Words that may say what it is: a folder, a symbol, a type. */
  hints: string[];
  /** Properties by name: ours are what, kind, rule, standOff, number, accuracy, bearing, height, note. */
  marks: Record<string, unknown>;
  /** What the reader itself could not make sense of. */
  problem?: string;
}

/** What a file held. */
export interface SiteFile {
  format: Format;
  items: SiteItem[];
  /** What holds for the file as a whole. */
  notes: string[];
  /** With latitude and longitude exchanged, more of it would lie at the site. */
  swapHelps: boolean;
}

/** A file that cannot be read at all, with the sentence that says why and what to do. */
export class FileRefusal extends Error {
  override name = "FileRefusal";
}

/** Before any of so many places is checked. */
export function mustBeFew(places: number): void {
  if (places > LIMITS.items)
    throw new FileRefusal(`The file holds more than ${LIMITS.items} places. Split it.`);
}

export interface ReadOptions {
  /** For what the name's ending promises. */
  fileName: string;
  /** The site's middle. */
  site: GeoPoint;
  /** Exchange latitude and longitude. */
  swap?: boolean;
}

/** Everything that is written to a file. Heights are in m above the ellipsoid. */
export interface SiteContents {
  name: string;
  features: readonly {
    kind: FeatureKindName;
    name: string;
    geometry: FeatureGeometry;
    standOff: number | null;
    rule: FeatureRule | null;
  }[];
  /** `height` is null where nobody gave it: read back it must not pass for measured. */
  firingPoints: readonly (GeoPoint & {
    number: number;
    name: string;
    height: number | null;
    accuracy: number;
    bearing?: number | null | undefined;
  })[];
  controlPoints: readonly (GeoPoint & {
    name: string;
    height: number | null;
    accuracy: number;
    note: string;
  })[];
  spotHeights: readonly (GeoPoint & { height: number })[];
  zones: readonly ZoneContents[];
  /** Signed for: written for who reads the file elsewhere, and never read back, as no file carries a signature. */
  barriers: readonly BarrierContents[];
}

export interface BarrierContents {
  name: string;
  geometry: { type: "LineString"; coordinates: number[][] };
  /** m, of its top above the ground. */
  height: number;
  /** What it is made of, and how that was tested. */
  reason: string;
}

export interface ZoneContents {
  name: string;
  /** As `reachPolygon` makes it: longitudes may run on past ±180. */
  geometry: { type: "Polygon"; coordinates: number[][][] };
  caution: string;
}
