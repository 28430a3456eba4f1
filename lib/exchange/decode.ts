/** From a file's bytes to its text: the encoding, and refusing what is no text. */
import { FileRefusal } from "./items";

const BINARY =
  "This is no text and no KMZ: Fairthrow reads GeoJSON, KML, KMZ, GPX and CSV. Export the file again as one of these.";

/** The text, without its byte order mark; `note` says what had to be guessed. Throws FileRefusal on binary rubbish. */
export function decode(bytes: Uint8Array): { text: string; note: string | null } {
  const encoding = markedEncoding(bytes) ?? utf16WithoutMark(bytes);
  if (encoding) return { text: textOf(bytes, encoding), note: null };
  try {
    return { text: textOf(bytes, "utf-8"), note: null };
  } catch {
    if (looksBinary(bytes)) throw new FileRefusal(BINARY);
    return { text: textOf(bytes, declaredEncoding(bytes) ?? "windows-1252"), note: GUESSED };
  }
}

const GUESSED =
  "The file is not in UTF-8 and was read as Western European text: check that names look right, above all letters with accents.";

function textOf(bytes: Uint8Array, encoding: string): string {
  let text: string;
  try {
    text = new TextDecoder(encoding, { fatal: true }).decode(bytes);
  } catch (error) {
    if (encoding === "utf-8") throw error;
    throw new FileRefusal(
      `The file says that it is ${encoding.toUpperCase()}, but its bytes are not. Save it again as UTF-8.`,
    );
  }
  if (text.includes("\0")) throw new FileRefusal(BINARY);
  return text;
}

function markedEncoding([a, b, c]: Uint8Array): string | null {
  if (a === 0xef && b === 0xbb && c === 0xbf) return "utf-8";
  if (a === 0xff && b === 0xfe) return "utf-16le";
  return a === 0xfe && b === 0xff ? "utf-16be" : null;
}

/** Every second byte of plain text is zero in UTF-16. */
function utf16WithoutMark(bytes: Uint8Array): string | null {
  if (bytes.length < 4 || bytes.length % 2 !== 0) return null;
  const head = bytes.subarray(0, 200);
  const zeros = (first: number) => head.every((byte, index) => (index % 2 === first) === (byte === 0));
  if (zeros(1)) return "utf-16le";
  return zeros(0) ? "utf-16be" : null;
}

/** What an XML declaration names, where it is one of the old Western ones. */
function declaredEncoding(bytes: Uint8Array): string | null {
  const head = String.fromCharCode(...bytes.subarray(0, 200));
  const named = /^\s*<\?xml[^>]*encoding=["']([\w.-]+)["']/i.exec(head)?.[1]?.toLowerCase();
  return named && /^(iso-8859-\d+|windows-125\d|us-ascii)$/.test(named) ? named : null;
}

function looksBinary(bytes: Uint8Array): boolean {
  const head = bytes.subarray(0, 4096);
  const odd = head.filter((byte) => byte < 9 || (byte > 13 && byte < 32) || byte === 127);
  return odd.length > head.length / 100;
}
