/**
 * Out and in again loses nothing. GeoJSON, KML, KMZ and GPX carry everything of a site (XML alone has no control
 * characters in names); CSV carries its points. Zones are computed, so they are written and not read.
 */
import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  FORMATS,
  type Format,
  readSiteFile,
  type SiteContents,
  type SiteItem,
  writeSiteFile,
} from "@/lib/exchange";
import { FEATURE_KINDS, FEATURE_RULES, type FeatureGeometry } from "@/lib/zones";

const SITE = { latitude: 44.2, longitude: -31.6 };

const latitude = fc.double({ min: 44.15, max: 44.25, noNaN: true });
const longitude = fc.double({ min: -31.65, max: -31.55, noNaN: true });
const position = fc.tuple(longitude, latitude);
/** As the contracts keep them: trimmed, 1 to 80 characters, whatever signs a person can type. */
const trimmed = (least: number, most: number) =>
  fc
    .string({ unit: "grapheme", minLength: least, maxLength: most })
    .map((text) => text.replace(/\p{Cc}/gu, " ").trim())
    .filter((text) => text.length >= least && text.length <= most && text.isWellFormed());
const name = fc.oneof(
  trimmed(1, 80),
  fc.constantFrom("=1+1", "'@x", "<b>&amp;</b>", "]]>", "a;b,c", '"quoted"', "-"),
);

/** A star round a middle, counter-clockwise: simple by construction, with a square hole where wished. */
const area = fc
  .tuple(
    position,
    fc.array(fc.double({ min: 0.5, max: 1, noNaN: true }), { minLength: 3, maxLength: 12 }),
    fc.boolean(),
  )
  .map(([[x, y], radii, hole]): FeatureGeometry => {
    const at = (angle: number, radius: number): [number, number] => [
      x + 0.001 * radius * Math.cos(angle),
      y + 0.001 * radius * Math.sin(angle),
    ];
    const ring = radii.map((radius, index) => at((2 * Math.PI * index) / radii.length, radius));
    const within = [0, 3, 2, 1].map((quarter) => at((Math.PI / 2) * quarter, 0.1));
    const closed = (corners: [number, number][]) => [...corners, corners[0] as [number, number]];
    return { type: "Polygon", coordinates: hole ? [closed(ring), closed(within)] : [closed(ring)] };
  });
const line = fc
  .array(position, { minLength: 2, maxLength: 8 })
  .filter((points) =>
    points.every((point, index) => index === 0 || String(point) !== String(points[index - 1])),
  )
  .map((coordinates): FeatureGeometry => ({ type: "LineString", coordinates }));
const point = position.map((coordinates): FeatureGeometry => ({ type: "Point", coordinates }));
const geometries = { Point: point, LineString: line, Polygon: area };

const metres = (most: number) => fc.double({ min: 0, max: most, noNaN: true });
// JSON knows no negative zero.
const height = fc.double({ min: -400, max: 5000, noNaN: true }).map((metres) => metres + 0);
const feature = fc.constantFrom(...FEATURE_KINDS).chain(({ kind, geometries: may, rule }) =>
  fc.record({
    kind: fc.constant(kind),
    name,
    geometry: fc.oneof(...may.map((type) => geometries[type])),
    standOff: fc.option(metres(2000)),
    rule:
      rule === "contains"
        ? fc.constant(null)
        : fc.option(fc.constantFrom(...FEATURE_RULES.filter((each) => each !== "contains"))),
  }),
);
const some = <T>(each: fc.Arbitrary<T>) => fc.array(each, { maxLength: 4 });
const place = { latitude, longitude, height };
const zone = area.map((geometry) => ({
  name: "Zone",
  geometry: geometry as SiteContents["zones"][number]["geometry"],
  caution: "Computed.",
}));
const contents: fc.Arbitrary<SiteContents> = fc.record({
  name,
  features: some(feature),
  firingPoints: some(
    fc.record({
      ...place,
      height: fc.option(height),
      number: fc.integer({ min: 1, max: 999 }),
      name: trimmed(0, 80),
      accuracy: metres(50),
      // A practice yard's; a contest's machines have their own.
      bearing: fc.option(
        fc.double({ min: 0, max: 360, maxExcluded: true, noNaN: true }).map((degrees) => degrees + 0),
      ),
    }),
  ),
  controlPoints: some(
    fc.record({ ...place, height: fc.option(height), name, accuracy: metres(50), note: trimmed(0, 500) }),
  ),
  spotHeights: some(fc.record(place)),
  zones: some(zone),
  barriers: fc.constant([]),
});

/** What a person would compare: everything that the contracts keep. */
function kept(items: readonly SiteItem[]) {
  return items.map(({ where: _, warnings: __, ...item }) => item);
}

/** The same site as items in the order in which the writers write them. */
function expected(site: SiteContents, format: Format) {
  const nothing = {
    standOff: null,
    rule: null,
    number: null,
    accuracy: null,
    bearing: null,
    note: "",
    height: null,
    kind: null,
  };
  const rest = { heightFrom: "ellipsoid", problem: null };
  const pointOf = (at: { latitude: number; longitude: number; height: number | null }) => ({
    height: at.height,
    geometry: { type: "Point", coordinates: [at.longitude, at.latitude] },
  });
  const items = [
    ...site.features.map((each) => ({ ...nothing, ...rest, what: "feature", ...each })),
    ...site.firingPoints.map((each) => {
      const { latitude: _, longitude: __, ...others } = each;
      // GeoJSON alone is how a yard goes out.
      const bearing = format === "geojson" ? (each.bearing ?? null) : null;
      return { ...nothing, ...rest, ...others, bearing, ...pointOf(each), what: "firing-point" };
    }),
    ...site.controlPoints.map((each) => {
      const { latitude: _, longitude: __, ...others } = each;
      return { ...nothing, ...rest, ...others, ...pointOf(each), what: "control-point" };
    }),
    ...site.spotHeights.map((each) => ({
      ...nothing,
      ...rest,
      name: "",
      ...pointOf(each),
      what: "spot-height",
    })),
  ];
  const points = items.filter(({ geometry }) => geometry.type === "Point");
  if (format === "csv") return points;
  // Waypoints come before tracks.
  return format === "gpx" ? [...points, ...items.filter(({ geometry }) => geometry.type !== "Point")] : items;
}

describe.each(FORMATS)("%s", (format) => {
  it("out and in again is the same site", () => {
    fc.assert(
      fc.property(contents, (site) => {
        const wanted = expected(site, format);
        fc.pre(wanted.length > 0);
        const file = writeSiteFile(site, format);
        const bytes = typeof file === "string" ? new TextEncoder().encode(file) : file;
        const found = readSiteFile(bytes, { fileName: `site.${format}`, site: SITE });
        expect(found.format).toBe(format);
        expect(kept(found.items)).toEqual(wanted);
      }),
      { numRuns: 100, seed: 11 },
    );
  });
});

it("whatever bytes come, they are read or refused with a sentence", () => {
  const starts = fc.constantFrom(
    "",
    "{",
    '{"type":"FeatureCollection","features":[',
    "<kml>",
    "<gpx>",
    "PK\u0003\u0004",
    "latitude,longitude\n",
  );
  fc.assert(
    fc.property(
      starts,
      fc.string({ unit: "binary" }),
      fc.uint8Array({ maxLength: 60 }),
      (start, text, bytes) => {
        const file = Uint8Array.from([...new TextEncoder().encode(start + text), ...bytes]);
        try {
          readSiteFile(file, { fileName: "x", site: SITE });
        } catch (error) {
          expect((error as Error).name).toBe("FileRefusal");
          expect((error as Error).message).toMatch(/\.$/);
        }
      },
    ),
    { numRuns: 500, seed: 12 },
  );
});
