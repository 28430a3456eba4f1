/**
 * How the program proves who it is: not at all (plain http, for this machine or behind a proxy), with a certificate
 * that the organiser has (HTTPS_CERT, HTTPS_KEY), or with one of its own making (npm run start:https, or HTTPS=own).
 */

import { readFileSync } from "node:fs";
import { join } from "node:path";
import { MendableError } from "../mendable";
import { ownNames, phoneName } from "./names";
import type { PhoneGuide } from "./phone-page";

export interface Secure {
  /** PEM. */
  key: string;
  certificate: string;
  /** Null with an own certificate: phones trust that already. */
  guide: PhoneGuide | null;
  notes: string[];
}

export async function secureFrom(port: number, env = process.env): Promise<Secure | null> {
  const { HTTPS: mode, HTTPS_CERT: certificate, HTTPS_KEY: key } = env;
  if (certificate || key) {
    if (!certificate || !key) throw new MendableError("HTTPS_CERT and HTTPS_KEY go together: set both.");
    return {
      certificate: readPem(certificate, "HTTPS_CERT"),
      key: readPem(key, "HTTPS_KEY"),
      guide: null,
      notes: [],
    };
  }
  if (!mode) return null;
  if (mode !== "own") throw new MendableError(`HTTPS must be "own" or left out; it is "${mode}".`);
  // What makes certificates is a large library: nobody else waits for it.
  const { certificatesFor } = await import("./authority");
  const made = certificatesFor(ownNames(env), join(env.FAIRTHROW_DATA || "data", "https"));
  const host = `${phoneName(env)}:${port}`;
  return {
    key: made.key,
    certificate: made.certificate,
    guide: { authority: made.authority, fingerprint: made.fingerprint, host },
    notes: [
      `${made.isNew ? "A new certificate authority was made: every phone installs it" : "A phone installs the certificate"} once, from http://${host}/phone`,
      `Its SHA-256 fingerprint: ${made.fingerprint}`,
    ],
  };
}

function readPem(file: string, name: string): string {
  try {
    return readFileSync(file, "utf8");
  } catch (error) {
    throw new MendableError(`${name}: ${file} cannot be read (${(error as NodeJS.ErrnoException).code}).`);
  }
}
