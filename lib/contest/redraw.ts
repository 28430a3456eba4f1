/**
 * A photograph as it is kept: drawn anew from its pixels, so that nothing is left of what its file said of itself (where,
 * when, by whom, with which phone; previews too). What unfolds to too much is refused before it is unfolded.
 */
import { createHash } from "node:crypto";
import { PHOTOGRAPH_BYTES, PHOTOGRAPH_PIXELS } from "../api/contracts";
import { invalid, Refusal } from "./errors";
import { readPictureBytes } from "./picture-bytes";

/** Pixels on the longer side, as it is kept: a crack can be told, and a page of eight loads in a field. */
const SIDE = 2048;
const LEAST = 64;
const QUALITY = 80;
const PATIENCE = 20; // s
/** Photographs that may wait while one is drawn: each waits in memory. */
const WAITING = 12;

export interface Redrawn {
  content: Uint8Array<ArrayBuffer>;
  width: number;
  height: number;
  sha256: string;
}

const shared = globalThis as typeof globalThis & {
  fairthrowRedraws?: { last: Promise<unknown>; waiting: number };
};
shared.fairthrowRedraws ??= { last: Promise.resolve(), waiting: 0 };
const queue = shared.fairthrowRedraws;

/** One after the other: a large one takes some hundred megabytes while it is drawn. Throws 422, or 503 when too many wait. */
export async function redraw(bytes: Uint8Array): Promise<Redrawn> {
  mustBePicture(bytes);
  if (queue.waiting >= WAITING) throw tooMany();
  queue.waiting += 1;
  const drawn = queue.last.then(() => drawAnew(bytes)).finally(() => (queue.waiting -= 1));
  queue.last = drawn.catch(() => {});
  return drawn;
}

export const tooMany = () =>
  new Refusal(503, "busy", "Many photographs come at once. Send it again in a moment.", [], {}, 5);

const refused = (message: string) => invalid("photograph", message);

function mustBePicture(bytes: Uint8Array): void {
  if (bytes.byteLength > PHOTOGRAPH_BYTES)
    throw refused("The file is larger than 12 MB: make it smaller, or take it with fewer pixels.");
  if (isHeic(bytes))
    throw refused(
      "This is a HEIC file, which cannot be read here. Let the phone save photographs as JPEG (“most compatible”), or take a picture of it on the screen.",
    );
  const read = readPictureBytes(bytes);
  if (!read) throw refused("This is no JPEG, PNG or WebP photograph, or it is cut off. Choose another file.");
  const { width, height } = read;
  if (width * height > PHOTOGRAPH_PIXELS)
    throw refused(`It has ${width} × ${height} pixels: at most 50 million. Make it smaller first.`);
  if (width < LEAST || height < LEAST)
    throw refused(`It has only ${width} × ${height} pixels: at least ${LEAST} on either side.`);
}

/** ISO/IEC 23008-12: the brand stands in the file's first box. */
function isHeic(bytes: Uint8Array): boolean {
  const head = Buffer.from(bytes.subarray(4, 12)).toString("latin1");
  return /^ftyp(hei[cmsx]|hev[cmsx]|mif1|msf1)$/.test(head);
}

async function drawAnew(bytes: Uint8Array): Promise<Redrawn> {
  // Native code, loaded when the first photograph comes.
  const { default: sharp } = await import("sharp");
  sharp.cache(false);
  sharp.concurrency(1);
  try {
    const { data, info } = await sharp(bytes, { limitInputPixels: PHOTOGRAPH_PIXELS, failOn: "error" })
      .timeout({ seconds: PATIENCE })
      // Upright first: how it was held stands in what goes.
      .autoOrient()
      .resize({ width: SIDE, height: SIDE, fit: "inside", withoutEnlargement: true })
      .flatten({ background: "#ffffff" })
      .toColourspace("srgb")
      .jpeg({ quality: QUALITY })
      .toBuffer({ resolveWithObject: true });
    const content = Uint8Array.from(data);
    const sha256 = createHash("sha256").update(content).digest("hex");
    return { content, width: info.width, height: info.height, sha256 };
  } catch (error) {
    const { code } = error as { code?: string };
    if (code === "ERR_MODULE_NOT_FOUND") throw error;
    throw refused("This file cannot be drawn: it is damaged or cut off. Take or save the photograph again.");
  }
}
