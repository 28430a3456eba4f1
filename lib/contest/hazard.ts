/** The open calculator: stateless, for anyone. Identical requests are computed once and remembered for a while. */
import {
  type Dispersion,
  dispersionRequestSchema,
  type HazardRequest,
  type HazardSheet,
  hazardRequestSchema,
  type Replay,
  replayRequestSchema,
  summarise,
} from "../throw";
import { parse, Refusal } from "./errors";
import { type EngineRefusal, hazardQueue } from "./hazard-queue";
import { canonical, sha256 } from "./scorebook";

/** Sheets remembered; about 10 kB each. */
const REMEMBERED = 300;

type Listener = (done: number) => void;

interface Running {
  sheet: Promise<HazardSheet>;
  listeners: Set<Listener>;
}

interface Memory {
  /** By hash of the request; the oldest use first. */
  sheets: Map<string, HazardSheet>;
  running: Map<string, Running>;
}

const shared = globalThis as typeof globalThis & { fairthrowCalculator?: Memory };
shared.fairthrowCalculator ??= { sheets: new Map(), running: new Map() };
const { sheets, running } = shared.fairthrowCalculator;

/**
 * Throws 422 for a machine that cannot be computed, 503 when too many ask at once or it takes too long.
 * @param onProgress called with rising shares of the work, 0 to 1, if it has to be done
 */
export async function openHazard(body: unknown, onProgress: Listener = () => {}): Promise<HazardSheet> {
  return sheetOf(parse(hazardRequestSchema, body), onProgress, refuse("machine", "horizon", "machine."));
}

async function sheetOf(
  request: HazardRequest,
  onProgress: Listener,
  refused: (error: Error) => never,
): Promise<HazardSheet> {
  const hash = sha256(canonical(request));
  const known = sheets.get(hash);
  if (known) {
    remember(hash, known);
    return known;
  }
  const computing = running.get(hash) ?? start(hash, request);
  computing.listeners.add(onProgress);
  try {
    return await computing.sheet.catch(refused);
  } finally {
    computing.listeners.delete(onProgress);
  }
}

function start(hash: string, request: HazardRequest): Running {
  const listeners = new Set<Listener>();
  const tell = (done: number) => {
    for (const listener of listeners) listener(done);
  };
  const sheet = hazardQueue()
    .compute(request, "open", tell)
    .then((computed) => {
      remember(hash, computed);
      return computed;
    })
    .finally(() => running.delete(hash));
  const entry = { sheet, listeners };
  running.set(hash, entry);
  return entry;
}

/** What the engine will not compute, as a refusal that names the field of the request. */
function refuse(machine: string, horizon: string, parameter: string) {
  return (error: Error & Partial<EngineRefusal>): never => {
    if (error.name !== "EngineRefusal") throw error;
    const field = !error.field ? machine : error.field === "horizon" ? horizon : `${parameter}${error.field}`;
    throw new Refusal(422, "not-computable", error.message, [{ field, message: error.message }]);
  };
}

function remember(hash: string, sheet: HazardSheet): void {
  sheets.delete(hash);
  sheets.set(hash, sheet);
  for (const oldest of sheets.keys()) {
    if (sheets.size <= REMEMBERED) break;
    sheets.delete(oldest);
  }
}

/** Where ordinary throws land. Throws as `openHazard` does. */
export async function openDispersion(body: unknown): Promise<Dispersion> {
  const asked = parse(dispersionRequestSchema, body);
  const { request, draws, seed, aim, windTurn } = asked;
  const landings = await hazardQueue()
    .disperse(request, { seed, aim, windTurn }, draws, "open")
    .catch(refuse("request.machine", "request.horizon", "request.machine."));
  return summarise(landings, asked);
}

/** What explains where something landed; the same request's sheet is made first. Throws as `openHazard` does. */
export async function openReplay(body: unknown): Promise<Replay> {
  const asked = parse(replayRequestSchema, body);
  const refused = refuse("request.machine", "request.horizon", "request.machine.");
  const { worst } = await sheetOf(asked.request, () => {}, refused);
  return hazardQueue().replay(asked, worst, "open").catch(refused);
}
