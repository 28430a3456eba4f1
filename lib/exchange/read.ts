/** One file, whatever it is: found out by its contents, read, and everything in it settled. */
import { decode } from "./decode";
import {
  FileRefusal,
  type Format,
  LIMITS,
  mustBeFew,
  type RawPlace,
  type ReadOptions,
  type SiteFile,
  type SiteItem,
} from "./items";
import { isNear, isProjected, PROJECTED, partsOf, positionsOf, type RawPosition } from "./parts";
import { readCsv } from "./read-csv";
import { readGeoJson } from "./read-geojson";
import { readGpx } from "./read-gpx";
import { readKml } from "./read-kml";
import { settle } from "./settle";
import { readXml } from "./xml";
import { isZip, unpackKml } from "./zip";

interface Found {
  format: Format;
  places: RawPlace[];
  notes: string[];
}

const TITLES: Record<Format, string> = { geojson: "GeoJSON", kml: "KML", kmz: "KMZ", gpx: "GPX", csv: "CSV" };
const ENDINGS: Record<string, Format> = {
  geojson: "geojson",
  json: "geojson",
  kml: "kml",
  kmz: "kmz",
  gpx: "gpx",
  csv: "csv",
  tsv: "csv",
  txt: "csv",
};

/** Reads a file. Throws FileRefusal, with a sentence, on one that cannot be read at all. */
export function readSiteFile(bytes: Uint8Array, options: ReadOptions): SiteFile {
  const steps = siteFileInSteps(bytes, options);
  for (;;) {
    const { done, value } = steps.next();
    if (done) return value;
  }
}

/** `readSiteFile`, place by place, for whoever has other work to do in between: outlines take their time. */
export function* siteFileInSteps(bytes: Uint8Array, options: ReadOptions): Generator<undefined, SiteFile> {
  if (bytes.length > LIMITS.file)
    throw new FileRefusal(
      `The file is larger than ${LIMITS.file / 1024 / 1024} MB, the most that is read. Split it.`,
    );
  const { format, places, notes } = found(bytes);
  const promised = ENDINGS[/\.(\w+)$/.exec(options.fileName)?.[1]?.toLowerCase() ?? ""];
  if (promised && promised !== format)
    notes.push(
      `The file's name promises ${TITLES[promised]}, but it holds ${TITLES[format]} and was read as that.`,
    );
  if (places.length === 0) throw new FileRefusal(`This ${TITLES[format]} file holds no places.`);
  mustBeBounded(places);
  const items: SiteItem[] = [];
  let computed = 0;
  let signed = 0;
  for (const place of places) {
    yield;
    const settled = settle(place, options);
    if (settled === "computed") computed++;
    else if (settled === "signed") signed++;
    else items.push(...settled);
    mustBeFew(items.length);
  }
  if (computed > 0)
    notes.push(
      `${computed} ${computed === 1 ? "zone or corner of one is" : "zones or corners of them are"} left out: Fairthrow computes them itself.`,
    );
  if (signed > 0)
    notes.push(
      `${signed} ${signed === 1 ? "barrier is" : "barriers are"} left out: the safety officer signs for each on the page Policy, air and protections.`,
    );
  if (places.some(hasHeightsAlong)) notes.push("Heights along lines and areas are not kept.");
  if (items.some(({ heightFrom }) => heightFrom === "sea-level"))
    notes.push(
      "Heights in this file count from the sea level, Fairthrow's from the ellipsoid: say below what to do.",
    );
  return { format, items, notes, swapHelps: swapHelps(places, options) };
}

function found(bytes: Uint8Array): Found {
  if (bytes.length === 0) throw new FileRefusal("The file is empty.");
  if (isZip(bytes)) {
    const { kml, others } = unpackKml(bytes);
    const { text, note } = decode(kml);
    const { places, notes } = readKml(rootNamed(text, "kml"));
    const left = others.length > 0 ? [`${others.length} other files in the KMZ are left out.`] : [];
    return { format: "kmz", places, notes: [...notes, ...left, ...(note ? [note] : [])] };
  }
  const { text, note } = decode(bytes);
  const notes = note ? [note] : [];
  const start = text.trimStart()[0];
  if (start === undefined) throw new FileRefusal("The file is empty.");
  if (start === "{" || start === "[") return { format: "geojson", places: readGeoJson(text), notes };
  if (start !== "<") return { format: "csv", places: readCsv(text), notes };
  const root = readXml(text.trimStart());
  if (root.name === "gpx") return { format: "gpx", places: readGpx(root), notes };
  if (root.name !== "kml" && root.name !== "Placemark" && root.name !== "Document")
    throw unknownXml(root.name);
  const kml = readKml(root);
  return { format: "kml", places: kml.places, notes: [...notes, ...kml.notes] };
}

function rootNamed(text: string, name: string) {
  const root = readXml(text.trimStart());
  if (root.name !== name) throw unknownXml(root.name);
  return root;
}

const unknownXml = (name: string) =>
  new FileRefusal(
    `This XML is neither KML nor GPX: it begins with <${name.slice(0, 40)}>. Export the file as one of these.`,
  );

/** What a file could ask of the checks of outlines, before any is made; and a file that is in a grid throughout. */
function mustBeBounded(places: readonly RawPlace[]): void {
  const positions = places.flatMap(positionsIn);
  if (positions.length > LIMITS.allCorners)
    throw new FileRefusal(
      `The file holds more than ${LIMITS.allCorners} corners in all. Split it, or thin it out.`,
    );
  const [first] = positions;
  if (first && positions.every(isProjected))
    throw new FileRefusal(`The coordinates of this file, such as ${first[0]}, ${first[1]}, are ${PROJECTED}`);
}

const positionsIn = (place: RawPlace): RawPosition[] =>
  (partsOf(place.geometry) ?? []).flatMap((part) => positionsOf(part, false).flat());

/** A third coordinate that is not the 0 which programs write for none. */
const hasHeightsAlong = (place: RawPlace): boolean =>
  (partsOf(place.geometry) ?? []).some(
    (part) =>
      part.type !== "Point" && positionsOf(part, false).some((line) => line.some(([, , z]) => Boolean(z))),
  );

/** More places lie at the site one way round than the other. */
function swapHelps(places: readonly RawPlace[], { site, swap = false }: ReadOptions): boolean {
  const near = (swapped: boolean) =>
    places.filter((place) => {
      const positions = positionsIn(place);
      return positions.length > 0 && positions.every(([x, y]) => isNear(site, swapped ? [y, x] : [x, y]));
    }).length;
  return near(!swap) > near(swap);
}
