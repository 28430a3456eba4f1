/**
 * A hold before judges' entries, and these before all that can wait. Those that come in the same moment are answered one after another in the
 * order they came: SQLite answers on this very thread, so begun together they would all be answered only when the last is
 * done. One that is still on its way here lets those by that are here already: any number stuck in bad networks hold up
 * the others once, not each in turn. What open pages read anew waits until none is under way, for a moment at most.
 */
import type { IncomingMessage, ServerResponse } from "node:http";

const HOLD = /^\/api\/v1\/contests\/[^/]+\/range\/hold$/;
const SAVE = /^\/api\/v1\/contests\/[^/]+\/shots\/[^/]+\/fixes$/;

/** The next begins after this in any case, ms: the rest of a request may be stuck in a phone's bad network. */
const TURN = 50;
/** No entry begins for so long while a hold is under way, ms. */
const STOP = 200;
/** Longest that a reading gives way, ms: an open page still hears within a second. */
const PATIENCE = 400;

interface Waiting {
  request: IncomingMessage;
  begin: () => void;
}

interface Saves {
  waiting: Waiting[];
  /** Whether somebody's turn is on. */
  busy: boolean;
  /** Readings that give way. */
  readers: Set<() => void>;
  /** Holds under way. */
  holds: number;
}
// The bundler makes several copies of a module; what must exist once hangs on globalThis.
const shared = globalThis as typeof globalThis & { fairthrowSaves?: Saves };
shared.fairthrowSaves ??= { waiting: [], busy: false, readers: new Set(), holds: 0 };
const saves = shared.fairthrowSaves;

type Answer = (request: IncomingMessage, response: ServerResponse) => void;

/** The same answers; entries take turns. */
export function savesFirst(answer: Answer): Answer {
  return (request, response) => {
    if (request.method === "POST" && HOLD.test(request.url ?? "")) return stopFor(request, response, answer);
    if (request.method !== "POST" || !SAVE.test(request.url ?? "")) return answer(request, response);
    const begin = () => {
      // Who left while waiting can neither be read nor answered; a judge's phone sends it again.
      if (request.destroyed) return void setImmediate(next);
      const timer = setTimeout(end, TURN);
      function end() {
        clearTimeout(timer);
        response.off("close", end);
        // What has come meanwhile is let in, and the answer out.
        setImmediate(next);
      }
      response.on("close", end);
      answer(request, response);
    };
    saves.waiting.push({ request, begin });
    if (saves.busy) return;
    saves.busy = true;
    setImmediate(next);
  };
}

/** A hold waits for no turn, and no turn begins beside it. */
function stopFor(request: IncomingMessage, response: ServerResponse, answer: Answer): void {
  saves.holds++;
  const timer = setTimeout(end, STOP);
  function end() {
    clearTimeout(timer);
    response.off("close", end);
    saves.holds--;
  }
  response.on("close", end);
  answer(request, response);
}

function next(): void {
  if (saves.holds > 0) return void setTimeout(next, 1);
  const here = saves.waiting.findIndex(({ request }) => request.complete || request.destroyed);
  const [first] = saves.waiting.splice(Math.max(here, 0), 1);
  saves.busy = first !== undefined;
  if (first) first.begin();
  else for (const read of [...saves.readers]) read();
}

/** Resolves once no entry is under way, or after a moment. */
export async function afterSaves(): Promise<void> {
  if (!saves.busy) return;
  await new Promise<void>((resolve) => {
    const go = () => {
      clearTimeout(timer);
      saves.readers.delete(go);
      resolve();
    };
    const timer = setTimeout(go, PATIENCE);
    saves.readers.add(go);
  });
}
