/** The open calculator: stateless, for anyone. Identical requests are computed once and remembered for a while. */
import { type HazardSheet, hazardRequestSchema } from "../throw";
import { parse, Refusal } from "./errors";
import { type EngineRefusal, hazardQueue } from "./hazard-queue";
import { canonical, sha256 } from "./scorebook";

/** Sheets remembered; about 10 kB each. */
const REMEMBERED = 300;

interface Memory {
  /** By hash of the request; the oldest use first. */
  sheets: Map<string, HazardSheet>;
  running: Map<string, Promise<HazardSheet>>;
}

const shared = globalThis as typeof globalThis & { fairthrowCalculator?: Memory };
shared.fairthrowCalculator ??= { sheets: new Map(), running: new Map() };
const { sheets, running } = shared.fairthrowCalculator;

/** Throws 422 for a machine that cannot be computed, 503 when too many ask at once or it takes too long. */
export async function openHazard(body: unknown): Promise<HazardSheet> {
  const request = parse(hazardRequestSchema, body);
  const hash = sha256(canonical(request));
  const known = sheets.get(hash);
  if (known) {
    remember(hash, known);
    return known;
  }
  const sheet = await (running.get(hash) ?? start(hash, request));
  return sheet;
}

function start(
  hash: string,
  request: Parameters<ReturnType<typeof hazardQueue>["compute"]>[0],
): Promise<HazardSheet> {
  const computing = hazardQueue()
    .compute(request, "open")
    .then((sheet) => {
      remember(hash, sheet);
      return sheet;
    })
    .catch((error: Error & Partial<EngineRefusal>) => {
      if (error.name !== "EngineRefusal") throw error;
      const field = !error.field
        ? "machine"
        : error.field === "horizon"
          ? "horizon"
          : `machine.${error.field}`;
      throw new Refusal(422, "not-computable", error.message, [{ field, message: error.message }]);
    })
    .finally(() => running.delete(hash));
  running.set(hash, computing);
  return computing;
}

function remember(hash: string, sheet: HazardSheet): void {
  sheets.delete(hash);
  sheets.set(hash, sheet);
  for (const oldest of sheets.keys()) {
    if (sheets.size <= REMEMBERED) break;
    sheets.delete(oldest);
  }
}
