/** CSV of points, for spreadsheets and data collectors: UTF-8 with its mark, commas, decimal points. */
import Papa from "papaparse";
import { describedPlaces } from "./described";
import type { SiteContents } from "./items";

const MARKS = ["what", "kind", "rule", "standOff", "number", "accuracy", "note"] as const;

/** A cell that a spreadsheet would run as a formula is written as text, with a ' before it; read-csv takes it off. */
const harmless = (cell: string) => (/^'*[=+\-@\t\r]/.test(cell) ? `'${cell}` : cell);

/** Rows of texts and numbers as CSV. */
export function csvOf(
  fields: readonly string[],
  rows: readonly (readonly (string | number | null)[])[],
): string {
  const data = rows.map((row) => row.map((cell) => (typeof cell === "string" ? harmless(cell) : cell)));
  return `\ufeff${Papa.unparse({ fields: [...fields], data }, { newline: "\r\n" })}\r\n`;
}

/** Points alone: lines and areas are left out. */
export function writeCsv(site: SiteContents): string {
  const rows = describedPlaces(site).flatMap(({ name, marks, geometry }) => {
    if (geometry.type !== "Point") return [];
    const [longitude = 0, latitude = 0] = geometry.coordinates;
    const height = marks.height === undefined ? null : Number(marks.height);
    return [[name, latitude, longitude, height, ...MARKS.map((mark) => marks[mark] ?? "")]];
  });
  return csvOf(["name", "latitude", "longitude", "height", ...MARKS], rows);
}
