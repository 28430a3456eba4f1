/**
 * Codes on badges: 12 characters of a 32-letter alphabet without I, L, O and U, so 60 random bits, in groups of four.
 * Small letters, spaces and hyphens do not matter, and a typed O, I or L is read as 0, 1 or 1. Stored only as a slow
 * hash. The salt is the same for all, since a badge is found by its hash: with 60 random bits there is nothing to
 * look up in a table, and scrypt makes trying them all hopeless.
 */
import { randomBytes, scrypt } from "node:crypto";
import { promisify } from "node:util";

const ALPHABET = "0123456789ABCDEFGHJKMNPQRSTVWXYZ";
const LENGTH = 12;
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
  const normal = normalCode(code);
  if (!normal) throw new Error("This is not a code.");
  return (await derive(normal, "fairthrow badge", 32, COST)).toString("hex");
}
