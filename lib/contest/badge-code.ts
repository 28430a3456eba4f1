/**
 * Codes on badges: 12 characters of a 32-letter alphabet without I, L, O and U, so 60 random bits, in groups of four.
 * Small letters, spaces and hyphens do not matter, and a typed O, I or L is read as 0, 1 or 1.
 *
 * Stored as a slow hash, and as a tag of 20 bits to find the badge by: what has no badge's tag needs no slow hash
 * (attempts.ts). Whoever steals the database has 40 bits left to try, 10 ms each, for a code that opens once. The salt
 * is the same for all, since a badge is found by its hash: with random codes there is nothing to look up in a table.
 */
import { randomBytes, scrypt } from "node:crypto";
import { promisify } from "node:util";
import { sha256 } from "./scorebook";

const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LENGTH = 12;
export const CODES = ALPHABET.length ** LENGTH;
/** 4 MiB and about 10 ms each. */
const COST = { N: 4096, r: 8, p: 1 };

const derive = promisify<string, string, number, typeof COST, Buffer>(scrypt);

/** Such as 7KQM-3XWD-R9TB. */
export function newCode(): string {
  const letters = Array.from(randomBytes(LENGTH), (byte) => ALPHABET[byte & 31]).join("");
  return letters.replace(/(.{4})(?!$)/g, "$1-");
}

/** As hashed: capitals alone; null for what cannot be a code. */
export function normalCode(typed: string): string | null {
  const letters = typed
    .toUpperCase()
    .replace(/[\s\-–—._]/g, "")
    .replace(/O/g, "0")
    .replace(/[IL]/g, "1");
  return letters.length === LENGTH && [...letters].every((letter) => ALPHABET.includes(letter))
    ? letters
    : null;
}

export async function codeHash(code: string): Promise<string> {
  return (await derive(mustBeCode(code), "fairthrow badge", 32, COST)).toString("hex");
}

/** 20 bits: five hexadecimal digits. */
export const codeTag = (code: string): string => sha256(`fairthrow tag ${mustBeCode(code)}`).slice(0, 5);

function mustBeCode(code: string): string {
  const normal = normalCode(code);
  if (!normal) throw new Error("This is not a code.");
  return normal;
}

/** A code with what is stored of it. */
export interface PreparedCode {
  code: string;
  hash: string;
  tag: string;
}

/** The hash takes some milliseconds: made before a transaction begins. */
export async function preparedCode(): Promise<PreparedCode> {
  const code = newCode();
  return { code, hash: await codeHash(code), tag: codeTag(code) };
}
