/** KMZ: a zip with a KML in it. Unpacked in pieces, so that one that lies about its size is stopped at the limit. */
import { strToU8, Unzip, type UnzipFile, UnzipInflate, zipSync } from "fflate";
import { FileRefusal, LIMITS } from "./items";

/** Bytes unpacked at a time: they can come to a thousand times as many. */
const PIECE = 1024;
const MEGABYTE = 1024 * 1024;

export const isZip = ([a, b, c, d]: Uint8Array): boolean =>
  a === 0x50 && b === 0x4b && ((c === 3 && d === 4) || (c === 5 && d === 6));

/** The KML inside, and the names of what else there is. Throws FileRefusal. */
export function unpackKml(bytes: Uint8Array): { kml: Uint8Array; others: string[] } {
  const names: string[] = [];
  const found: { name: string; pieces: Uint8Array[]; ended: boolean }[] = [];
  let size = 0;
  const unzip = new Unzip((file: UnzipFile) => {
    names.push(file.name);
    if (names.length > LIMITS.entries)
      throw new FileRefusal(`This KMZ holds more than ${LIMITS.entries} files. Pack the KML alone.`);
    if (!/\.kml$/i.test(file.name)) return;
    const entry = { name: file.name, pieces: [] as Uint8Array[], ended: false };
    found.push(entry);
    file.ondata = (error, piece, final) => {
      if (error) throw error;
      size += piece.length;
      if (size > LIMITS.inflated)
        throw new FileRefusal(
          `Unpacked, this KMZ is larger than ${LIMITS.inflated / MEGABYTE} MB, the most that is read.`,
        );
      entry.pieces.push(piece);
      entry.ended = final;
    };
    file.start();
  });
  unzip.register(UnzipInflate);
  try {
    for (let at = 0; at < bytes.length; at += PIECE)
      unzip.push(bytes.subarray(at, at + PIECE), at + PIECE >= bytes.length);
  } catch (error) {
    if (error instanceof FileRefusal) throw error;
    throw new FileRefusal("This KMZ is damaged and cannot be unpacked. Save or copy it again.");
  }
  // What the root holds first: others are overlays and parts.
  const depth = (name: string) => name.split("/").length;
  const [kml] = found.sort((a, b) => depth(a.name) - depth(b.name));
  if (!kml) throw new FileRefusal(withoutKml(names));
  if (!kml.ended) throw new FileRefusal("This KMZ is cut off. Save or copy it again.");
  return {
    kml: joined(kml.pieces),
    others: names.filter((name) => name !== kml.name && !name.endsWith("/")),
  };
}

function withoutKml(names: readonly string[]): string {
  if (names.some((name) => /\.(kmz|zip)$/i.test(name)))
    return "This archive holds another archive, which is not opened. Unpack it and give the KMZ or KML itself.";
  if (names.some((name) => /\.shp$/i.test(name)))
    return "This archive holds a shapefile, which is not read. Export it as GeoJSON in WGS 84.";
  return "This archive holds no KML. A KMZ is a zip with a file such as doc.kml in it.";
}

function joined(pieces: readonly Uint8Array[]): Uint8Array {
  const whole = new Uint8Array(pieces.reduce((sum, piece) => sum + piece.length, 0));
  let at = 0;
  for (const piece of pieces) {
    whole.set(piece, at);
    at += piece.length;
  }
  return whole;
}

/** The oldest day that a zip can name: the same contents give the same file. */
const DAY = new Date(1980, 0, 1);

export const packKml = (kml: string): Uint8Array => zipSync({ "doc.kml": [strToU8(kml), { mtime: DAY }] });
