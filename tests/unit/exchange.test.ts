/** Files of a site as people and other programs make them: read, repaired, or refused with a sentence. */
import { strToU8, zipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { FileRefusal, LIMITS, readSiteFile, type SiteItem, writeSiteFile } from "@/lib/exchange";

const SITE = { latitude: 44.2, longitude: -31.6 };

const read = (content: string | Uint8Array, fileName = "", swap = false) =>
  readSiteFile(typeof content === "string" ? strToU8(content) : content, { fileName, site: SITE, swap });

function refusal(content: string | Uint8Array, fileName = ""): string {
  try {
    read(content, fileName);
  } catch (error) {
    if (error instanceof FileRefusal) return error.message;
    throw error;
  }
  throw new Error("The file was read.");
}

const only = (items: readonly SiteItem[]): SiteItem => {
  expect(items).toHaveLength(1);
  return items[0] as SiteItem;
};

const geojson = (geometry: unknown, properties: object = { name: "Here", kind: "building" }) =>
  JSON.stringify({ type: "FeatureCollection", features: [{ type: "Feature", geometry, properties }] });
const kml = (inside: string) =>
  `<?xml version="1.0"?><kml xmlns="http://www.opengis.net/kml/2.2"><Document>${inside}</Document></kml>`;
const point = { type: "Point", coordinates: [-31.6, 44.2] };
const ring = [
  [-31.6, 44.2],
  [-31.599, 44.2],
  [-31.599, 44.201],
  [-31.6, 44.201],
  [-31.6, 44.2],
];

describe("whole files", () => {
  it.each([
    ["an empty file", "", /empty/],
    ["nothing but spaces", " \n ", /empty/],
    ["a picture", new Uint8Array([0x89, 0x50, 0x4e, 0x47, 13, 10, 26, 10, 0, 0, 0, 13, 0xff]), /no text/],
    ["a file beyond the limit", new Uint8Array(LIMITS.file + 1), /larger than 5 MB/],
    ["a cut-off GeoJSON", geojson(point).slice(0, 60), /cut off/],
    ["NaN in JSON", '{"type":"Point","coordinates":[NaN,1]}', /NaN/],
    ["another JSON", '{"hello":1}', /no GeoJSON/],
    ["TopoJSON", '{"type":"Topology"}', /TopoJSON/],
    ["an empty collection", '{"type":"FeatureCollection","features":[]}', /no places/],
    ["another XML", "<html><body/></html>", /neither KML nor GPX/],
    ["broken XML", "<kml><Placemark></kml>", /line 1, column/],
    ["an entity", '<!DOCTYPE kml [<!ENTITY a "b">]><kml>&a;</kml>', /DOCTYPE/],
    ["an entity nobody declared", kml("<Placemark><name>&x;</name></Placemark>"), /broken at line 1/],
    ["deep XML", `<kml>${"<Folder>".repeat(100)}`, /64 levels/],
    ["a CSV without columns", "A,44.2,-31.6\nB,44.2,-31.6\n", /no column latitude and no column longitude/],
    ["a CSV in a grid", "name,easting,northing\nA,448262,5411932\n", /eastings and northings/],
    ["an open quote", 'name,latitude,longitude\n"A,44.2,-31.6\n', /quotation mark/],
    ["a zip in a zip", zipSync({ "a.kmz": strToU8("x") }), /another archive/],
    ["a zip of something else", zipSync({ "a.txt": strToU8("x") }), /holds no KML/],
    ["a cut-off KMZ", zipSync({ "doc.kml": strToU8(kml("x".repeat(5000))) }).slice(0, 90), /cut off|damaged/],
    [
      "a file of another coordinate system",
      JSON.stringify({
        type: "FeatureCollection",
        crs: { type: "name", properties: { name: "urn:ogc:def:crs:EPSG::25833" } },
        features: [],
      }),
      /EPSG::25833/,
    ],
    [
      "metres in place of degrees",
      geojson({ type: "Point", coordinates: [448262, 5411932] }),
      /448262, 5411932/,
    ],
    [
      "too many places",
      `name,latitude,longitude\n${"A,44.2,-31.6\n".repeat(LIMITS.items + 1)}`,
      /more than 5000 places/,
    ],
  ])("%s is refused", (_, content, words) => {
    expect(refusal(content)).toMatch(words);
    expect(refusal(content)).toMatch(/\.$/);
  });

  it("stops a zip bomb at the limit, whatever size it claims", () => {
    const bomb = zipSync({ "doc.kml": new Uint8Array(LIMITS.inflated + 1000) });
    expect(bomb.length).toBeLessThan(100_000);
    expect(refusal(bomb)).toMatch(/larger than 20 MB/);
    // Uncompressed size in the local header (22) and in the directory.
    const lying = bomb.slice();
    lying.set([10, 0, 0, 0], 22);
    expect(refusal(lying)).toMatch(/larger than 20 MB|damaged/);
  });

  it("reads what the content is, not what the name says", () => {
    const { format, notes } = read(geojson(point), "site.kml");
    expect(format).toBe("geojson");
    expect(notes.join()).toMatch(/promises KML, but it holds GeoJSON/);
  });

  it("reads UTF-16 and Western European text", () => {
    const text = "name;latitude;longitude\nGrünes Tor;44,2;-31,6\n";
    const wide = new Uint8Array([0xff, 0xfe, ...[...text].flatMap((sign) => [sign.charCodeAt(0), 0])]);
    expect(only(read(wide).items).name).toBe("Grünes Tor");
    expect(only(read(wide.slice(2)).items).name).toBe("Grünes Tor");
    const western = Uint8Array.from([...text].map((sign) => sign.charCodeAt(0)));
    const { items, notes } = read(western);
    expect(only(items).name).toBe("Grünes Tor");
    expect(notes.join()).toMatch(/not in UTF-8/);
  });

  it("leaves out what Fairthrow computes itself", () => {
    const { items, notes } = read(
      JSON.stringify({
        type: "FeatureCollection",
        features: [
          { type: "Feature", geometry: point, properties: { what: "spot-height", height: 12 } },
          {
            type: "Feature",
            geometry: { type: "Polygon", coordinates: [ring] },
            properties: { what: "zone" },
          },
        ],
      }),
    );
    expect(only(items)).toMatchObject({ what: "spot-height", height: 12, problem: null });
    expect(notes.join()).toMatch(/1 zone or corner/);
  });
});

describe("places", () => {
  const problemOf = (geometry: unknown) => only(read(geojson(geometry)).items).problem;

  it.each([
    ["altitude only", { type: "Point", coordinates: [null, null, 12] }, /has a height but no latitude/],
    [
      "no numbers",
      {
        type: "LineString",
        coordinates: [
          [-31.6, 44.2],
          ["a", "b"],
        ],
      },
      /Corner 2 has no usable/,
    ],
    ["no geometry", null, /no point, line or area/],
    ["an unknown geometry", { type: "Circle", coordinates: [1, 2] }, /no point, line or area/],
    ["a latitude beyond the pole", { type: "Point", coordinates: [44.2, -131.6] }, /beyond 90/],
    ["another continent", { type: "Point", coordinates: [10, 50] }, /km from the site/],
    ["null island", { type: "Point", coordinates: [0, 0] }, /missing position/],
    [
      "a bow tie",
      { type: "Polygon", coordinates: [[ring[0], ring[2], ring[1], ring[3], ring[0]]] },
      /crosses or touches itself at corner 1/,
    ],
    ["two corners", { type: "Polygon", coordinates: [[ring[0], ring[1], ring[0]]] }, /3 different corners/],
    [
      "too many corners",
      { type: "LineString", coordinates: Array.from({ length: 2500 }, (_, i) => [-31.6 + i * 1e-6, 44.2]) },
      /2500 corners; at most 2000/,
    ],
  ])("%s is a problem of that place alone", (_, geometry, words) => {
    expect(problemOf(geometry)).toMatch(words);
  });

  it("repairs an outline where only one thing can be meant, and says so", () => {
    const clockwise = [...ring].reverse();
    const open = [clockwise[0], clockwise[0], ...clockwise.slice(1, -1)];
    const item = only(read(geojson({ type: "Polygon", coordinates: [open] })).items);
    expect(item.problem).toBeNull();
    const { coordinates } = item.geometry as { coordinates: number[][][] };
    expect(coordinates[0]).toHaveLength(5);
    expect(coordinates[0]?.[0]).toEqual(coordinates[0]?.[4]);
    expect(item.warnings.join(" ")).toMatch(/twice in a row.*was closed.*turned/);
  });

  it("offers to exchange latitude and longitude where that brings them to the site", () => {
    const swapped = geojson({ type: "Point", coordinates: [44.2, -31.6] });
    const before = read(swapped);
    expect(before.swapHelps).toBe(true);
    expect(only(before.items).problem).toMatch(/exchanged/);
    const after = read(swapped, "", true);
    expect(after.swapHelps).toBe(false);
    expect(only(after.items)).toMatchObject({ problem: null, geometry: point });
  });

  it("takes collections and multi-geometries apart", () => {
    const many = {
      type: "GeometryCollection",
      geometries: [point, { type: "MultiPolygon", coordinates: [[ring], [ring]] }],
    };
    const { items } = read(geojson(many));
    expect(items.map(({ geometry }) => geometry?.type)).toEqual(["Point", "Polygon", "Polygon"]);
    expect(items.map(({ name }) => name)).toEqual(["Here (1 of 3)", "Here (2 of 3)", "Here (3 of 3)"]);
  });

  it("leaves a kind it does not know, or that cannot have this shape, to a person", () => {
    const unknown = only(read(geojson(point, { name: "Tent", kind: "marquee" })).items);
    expect(unknown).toMatchObject({ what: "feature", kind: null, problem: null });
    const car = only(read(geojson(point, { kind: "car-park" })).items);
    expect(car.kind).toBeNull();
    expect(car.warnings.join()).toMatch(/cannot be a point/);
    const hedge = only(read(geojson({ type: "LineString", coordinates: ring }, { kind: "Fence" })).items);
    expect(hedge).toMatchObject({ kind: "boundary", geometry: { type: "Polygon" } });
  });

  it("keeps a third coordinate as a point's height, and says what it counts from", () => {
    const place = { type: "Point", coordinates: [-31.6, 44.2, 61.5] };
    expect(only(read(geojson(place, { what: "control-point" })).items)).toMatchObject({
      height: 61.5,
      heightFrom: "ellipsoid",
    });
    const gpx = '<gpx><wpt lat="44.2" lon="-31.6"><ele>61.5</ele><name>P</name><type>peg</type></wpt></gpx>';
    const { items, notes } = read(gpx);
    expect(only(items)).toMatchObject({ what: "control-point", height: 61.5, heightFrom: "sea-level" });
    expect(notes.join()).toMatch(/count from the sea level/);
    expect(only(read(geojson(point, { what: "spot-height" })).items).problem).toMatch(/needs a height/);
    // The 0 of a point on the ground is no height.
    const ground = "<Placemark><Point><coordinates>-31.6,44.2,0</coordinates></Point></Placemark>";
    const above = ground
      .replace("<Point>", "<Point><altitudeMode>absolute</altitudeMode>")
      .replace(",0<", ",9<");
    expect(read(kml(ground + above)).items.map(({ height }) => height)).toEqual([null, 9]);
    const walk = { type: "LineString", coordinates: ring.slice(0, 2).map(([x, y]) => [x, y, 60]) };
    expect(read(geojson(walk)).notes.join()).toMatch(/along lines and areas are not kept/);
  });
});

describe("formats", () => {
  it("reads KML folders, tracks, holes and odd spacing", () => {
    const { items } = read(
      kml(`<Folder><name>Buildings</name>
        <Placemark><name><![CDATA[Barn & <byre>]]></name><Polygon>
          <outerBoundaryIs><LinearRing><coordinates>-31.6, 44.2,0 -31.599, 44.2,0 -31.599, 44.201,0</coordinates></LinearRing></outerBoundaryIs>
        </Polygon></Placemark></Folder>
        <Placemark><name>Walk</name><gx:Track xmlns:gx="http://www.google.com/kml/ext/2.2"><gx:coord>-31.6 44.2 1</gx:coord><gx:coord>-31.599 44.2 1</gx:coord></gx:Track></Placemark>
        <NetworkLink><name>Elsewhere</name></NetworkLink>`),
    );
    expect(items).toMatchObject([
      { name: "Barn & <byre>", kind: "building", geometry: { type: "Polygon" }, problem: null },
      { name: "Walk", kind: null, geometry: { type: "LineString" }, problem: null },
    ]);
  });

  it("reads tracks of a receiver, each segment a line", () => {
    const { items } = read(
      `<gpx><trk><name>Walk</name>${'<trkseg><trkpt lat="44.2" lon="-31.6"/><trkpt lat="44.201" lon="-31.6"/></trkseg>'.repeat(2)}</trk>
       <wpt lat="" lon=""><name>Lost</name></wpt></gpx>`,
    );
    expect(items.map(({ name, problem }) => [name, problem])).toEqual([
      ["Lost", "This point has no usable latitude and longitude."],
      ["Walk (1 of 2)", null],
      ["Walk (2 of 2)", null],
    ]);
  });

  it.each([
    ["name,latitude,longitude,height,kind", "Gate,44.2,-31.6,12.5,post"],
    ["\ufeffKind;Name;Longitude;Latitude;Height", "post;Gate;-31,6;44,2;12,5"],
    ["sep=;\nname;lat;lon;height;type", '"Gate";44.2;-31.6;12.5;Post'],
    ["Name\tLat\tLon\tHeight\tKind", "Gate\t44.2\t-31.6\t12.5\tposts"],
  ])("reads CSV as %j", (head, row) => {
    expect(only(read(`${head}\r\n${row}\r\n\r\n`).items)).toMatchObject({
      name: "Gate",
      kind: "post",
      height: 12.5,
      geometry: point,
      problem: null,
    });
  });
});

it("writes a zone across the antimeridian in parts, as RFC 7946 asks", () => {
  const corners = [
    [179.999, 0],
    [180.001, 0],
    [180.001, 0.001],
    [179.999, 0.001],
    [179.999, 0],
  ];
  const nothing = {
    name: "Far",
    features: [],
    firingPoints: [],
    controlPoints: [],
    spotHeights: [],
    barriers: [],
  };
  const zone = {
    name: "Z",
    geometry: { type: "Polygon" as const, coordinates: [corners] },
    caution: "Computed.",
  };
  const file = writeSiteFile({ ...nothing, zones: [zone] }, "geojson") as string;
  const { geometry } = JSON.parse(file).features[0];
  expect(geometry.type).toBe("MultiPolygon");
  const longitudes = geometry.coordinates.flat(2).map(([longitude]: number[]) => longitude);
  expect([Math.min(...longitudes), Math.max(...longitudes)]).toEqual([-180, 180]);
  const kmlFile = writeSiteFile({ ...nothing, zones: [zone] }, "kml") as string;
  expect(kmlFile.match(/<Polygon>/g)).toHaveLength(2);
});

it("barriers are written for who reads the file elsewhere, and never read back: no file carries a signature", () => {
  const barrier = {
    name: "Bales",
    geometry: {
      type: "LineString" as const,
      coordinates: [
        [-31.6, 44.2],
        [-31.599, 44.2],
      ],
    },
    height: 3,
    reason: "Two rows, pushed at with a tractor",
  };
  const [peg] = [{ name: "Peg", latitude: 44.2, longitude: -31.6, height: 20, accuracy: 0.1, note: "" }];
  const nothing = { name: "Here", features: [], firingPoints: [], spotHeights: [], zones: [] };
  for (const format of ["geojson", "kml", "kmz", "gpx"] as const) {
    const file = writeSiteFile({ ...nothing, controlPoints: [peg], barriers: [barrier] }, format);
    if (typeof file === "string") expect(file).toContain("pushed at with a tractor");
    const back = read(file);
    expect(only(back.items)).toMatchObject({ what: "control-point", name: "Peg" });
    expect(back.notes.join()).toContain("1 barrier is left out: the safety officer signs");
  }
});
