/**
 * Latitude and longitude as people have them: copied from a receiver or a map, in decimal degrees or in degrees,
 * minutes and seconds, with signs or with compass letters.
 */
import { SITE_LATITUDE, SITE_LATITUDE_WORDS } from "@/lib/zones/latitude";

export interface Position {
  latitude: number;
  longitude: number;
}

export type ReadPosition = { ok: true; position: Position } | { ok: false; empty: boolean; message: string };

const ADVICE =
  "give latitude and longitude in degrees, such as 51.47730, -0.00150 or 51°28'38.3\"N 0°0'5.4\"W.";

const no = (message: string, empty = false): ReadPosition => ({ ok: false, empty, message });

/** Reads both numbers from one text; latitude first unless letters say otherwise. */
export function readPosition(text: string): ReadPosition {
  const plain = text.trim().replace(/−/g, "-").toUpperCase();
  if (plain === "") return no(`Position: ${ADVICE}`, true);
  const lettered = [...plain.matchAll(/[NSEW]/g)].length > 0;
  const halves = lettered ? letterHalves(plain) : splitHalves(plain);
  if (!halves) return no(`Position: ${ADVICE}`);
  const [first, second] = halves.map(degrees);
  if (!first || !second) return no(`Position: ${ADVICE}`);
  const swapped = first.axis === "longitude" || second.axis === "latitude";
  if (first.axis && first.axis === second.axis) return no(`Position: two of the same kind; ${ADVICE}`);
  const latitude = (swapped ? second : first).value;
  const longitude = (swapped ? first : second).value;
  if (Math.abs(latitude) > 90)
    return no("Position: the latitude lies between −90 and 90 degrees; it comes first.");
  if (Math.abs(latitude) > SITE_LATITUDE) return no(`Position: ${SITE_LATITUDE_WORDS}`);
  if (Math.abs(longitude) > 180) return no("Position: the longitude lies between −180 and 180 degrees.");
  const position = { latitude, longitude };
  return isNowhere(position) ? no(NOWHERE_WORDS) : { ok: true, position };
}

/** Degrees: some 50 m. */
const AT_NOUGHT = 0.0005;

/** 0°, 0° is what receivers, forms and files give where they have no position. */
export const isNowhere = ({ latitude, longitude }: Position): boolean =>
  Math.abs(latitude) < AT_NOUGHT && Math.abs(longitude) < AT_NOUGHT;

export const NOWHERE_WORDS =
  "Position: 0°, 0° lies in the sea off Africa, and is what a receiver or a file gives that has no position. Enter the place itself.";

/** "51.2, -1.3", "51.2 -1.3", "51,2; -1,3" (a semicolon frees the comma to be a decimal one). */
function splitHalves(text: string): [string, string] | null {
  const parts = text.includes(";")
    ? text.split(";").map((part) => part.replace(",", "."))
    : text.includes(",")
      ? text.split(",")
      : /[°'"]/.test(text)
        ? []
        : text.split(/\s+/);
  const [first, second] = parts;
  return parts.length === 2 && first && second ? [first, second] : null;
}

/** Letters before or after each half: "N 51 28.5 W 0 0.1", "51.5N, 0.1W". */
function letterHalves(text: string): [string, string] | null {
  const cleaned = text.replace(/[,;](?=\s*[NSEW\d-])/g, (_, at: number) =>
    /\d/.test(text[at - 1] ?? "") && /\d/.test(text[at + 1] ?? "") ? "." : " ",
  );
  const before = /^\s*([NSEW][^NSEW]+)([NSEW][^NSEW]+)$/.exec(cleaned);
  const after = /^([^NSEW]+[NSEW])([^NSEW]+[NSEW])\s*$/.exec(cleaned);
  const found = before ?? after;
  return found?.[1] && found[2] ? [found[1], found[2]] : null;
}

function degrees(text: string): { value: number; axis: "latitude" | "longitude" | null } | null {
  const letter = /[NSEW]/.exec(text)?.[0];
  const bare = text
    .replace(/[NSEW]/g, " ")
    .replace(/[°º'′’"″”]/g, " ")
    .trim();
  const parts = bare.split(/\s+/);
  if (
    parts.length > 3 ||
    !parts.every((part, i) => (i === 0 ? /^[-+]?\d+(\.\d+)?$/ : /^\d+(\.\d+)?$/).test(part))
  ) {
    return null;
  }
  const [whole = 0, minutes = 0, seconds = 0] = parts.map(Number);
  if (minutes >= 60 || seconds >= 60) return null;
  const negative = bare.startsWith("-") || letter === "S" || letter === "W";
  if (letter && bare.startsWith("-")) return null;
  const value = (Math.abs(whole) + minutes / 60 + seconds / 3600) * (negative ? -1 : 1);
  const axis = letter ? (letter === "N" || letter === "S" ? "latitude" : "longitude") : null;
  return { value, axis };
}

/** How a field shows a position: about a centimetre. */
export const positionText = ({ latitude, longitude }: Position): string =>
  `${latitude.toFixed(7)}, ${longitude.toFixed(7)}`;
