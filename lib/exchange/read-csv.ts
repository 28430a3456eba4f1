/** CSV of points: one a row, columns by their names in any order, comma, semicolon or tab, decimal point or comma. */
import Papa from "papaparse";
import { FileRefusal, LIMITS, mustBeFew, type RawPlace } from "./items";
import { decimal } from "./numbers";

const COLUMNS: Record<string, readonly string[]> = {
  name: ["name", "title", "label"],
  latitude: ["latitude", "lat", "y"],
  longitude: ["longitude", "lon", "lng", "long", "x"],
  height: ["height"],
  elevation: ["elevation", "ele", "altitude", "alt"],
  kind: ["kind", "type", "category"],
  what: ["what"],
  rule: ["rule"],
  standOff: ["standoff"],
  number: ["number", "no"],
  accuracy: ["accuracy"],
  note: ["note", "notes", "remark"],
};

const ADVICE = "Name the columns in the first row: name, latitude, longitude, height, kind.";

/** What a spreadsheet might run is written with a ' before it (lib/exchange/write-csv.ts). */
export const plain = (cell: string) => cell.replace(/^'('*[=+\-@\t\r])/, "$1");

export function readCsv(text: string): RawPlace[] {
  // Excel's own line that names the separator.
  const named = /^sep=(.)\r?\n/i.exec(text);
  const body = named ? text.slice(named[0].length) : text;
  const { data, errors } = Papa.parse<string[]>(body, {
    delimiter: named?.[1] ?? separatorOf(body),
    skipEmptyLines: "greedy",
    preview: LIMITS.items + 2,
  });
  const quotes = errors.find(({ type }) => type === "Quotes");
  if (quotes)
    throw new FileRefusal(
      `A quotation mark in row ${(quotes.row ?? 0) + 1} is not closed. Export the file again.`,
    );
  const [head, ...rows] = data;
  if (!head) throw new FileRefusal("The file is empty.");
  mustBeFew(rows.length);
  const columns = columnsOf(head);
  return rows.map((row, index) => placeOf(row, columns, `row ${index + 2}`));
}

/** The one that stands most often in the first row. */
function separatorOf(text: string): string {
  const [head = ""] = text.trimStart().split(/\r?\n|\r/, 1);
  const count = (sign: string) => head.split(sign).length;
  return [",", ";", "\t"].reduce((best, sign) => (count(sign) > count(best) ? sign : best));
}

function columnsOf(head: readonly string[]): Map<string, number> {
  const words = head.map((word) =>
    word
      .trim()
      .toLowerCase()
      .replace(/[\s_-]/g, ""),
  );
  if (words.some((word) => /^(easting|northing|eastings|northings|utm.*|rechtswert|hochwert)$/.test(word)))
    throw new FileRefusal(
      "These are eastings and northings of a map grid, not degrees. Export the points again in WGS 84 (EPSG:4326), as latitude and longitude.",
    );
  const columns = new Map<string, number>();
  for (const [name, known] of Object.entries(COLUMNS)) {
    const at = words.findIndex((word) => known.includes(word));
    if (at >= 0) columns.set(name, at);
  }
  const missing = ["latitude", "longitude"].filter((name) => !columns.has(name));
  if (missing.length > 0)
    throw new FileRefusal(
      `This was read as CSV, and it has no column ${missing.join(" and no column ")}. ${ADVICE}`,
    );
  return columns;
}

function placeOf(row: readonly string[], columns: Map<string, number>, where: string): RawPlace {
  const cell = (name: string) => plain(row[columns.get(name) ?? -1] ?? "");
  const height = cell("elevation").trim();
  const degrees = [decimal(cell("longitude")), decimal(cell("latitude"))];
  const own = ["kind", "what", "rule", "standOff", "number", "accuracy", "note", "height"];
  return {
    where,
    name: cell("name"),
    geometry: { type: "Point", coordinates: height === "" ? degrees : [...degrees, decimal(height)] },
    heightFrom: "sea-level",
    hints: [],
    marks: Object.fromEntries(own.filter((name) => columns.has(name)).map((name) => [name, cell(name)])),
  };
}
