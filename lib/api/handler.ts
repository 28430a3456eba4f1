/**
 * From a request to a command or query and back: who asks, the body within its bounds, the idempotency key, the same
 * origin for writes, and every error as RFC 9457 problem+json. Route files hold nothing but which command is meant.
 */
import { STATUS_CODES } from "node:http";
import {
  type Asker,
  actorOfToken,
  type Call,
  endedOfToken,
  endedWords,
  isRefusal,
  Refusal,
  type Reply,
} from "../contest";
import { type Database, getDatabase } from "../db";
import { readBytes, readJson } from "./body";
import type { Problem } from "./contracts";
import { mustBeSameOrigin } from "./same-origin";
import { tokenOf } from "./session";

export interface Asked {
  request: Request;
  db: Database;
  actor: Asker;
  /** The session's token, when one came. */
  token: string | null;
  /** What came as Authorization: Bearer: a team's way to its own entry. */
  bearer: string | null;
  params: Record<string, string>;
  query: Record<string, string>;
}
export type AskedToWrite = Asked & { call: Call; body: unknown };

export type RouteHandler = (request: Request, context: { params: Promise<unknown> }) => Promise<Response>;
const METHODS = ["GET", "HEAD", "POST", "PUT", "PATCH", "DELETE", "OPTIONS"] as const;
type Method = (typeof METHODS)[number];

/** Largest body of an ordinary write, bytes: a site feature of 2000 positions fits. */
const BODY_LIMIT = 256 * 1024;

/** A query: its answer is sent as JSON. */
export function read(work: (asked: Asked) => Promise<object>): RouteHandler {
  return async (request, context) => json(200, await work(await ask(request, context)));
}

/** A query whose answer is a file that never changes under its address: sent once, kept for good. */
export function lasting(
  work: (asked: Asked) => Promise<{ content: Uint8Array; mediaType: string; sha256: string }>,
): RouteHandler {
  return async (request, context) => {
    const { content, mediaType, sha256 } = await work(await ask(request, context));
    const headers = {
      ETag: `"${sha256}"`,
      "Cache-Control": "public, max-age=31536000, immutable",
      "Content-Type": mediaType,
    };
    if (request.headers.get("if-none-match")?.includes(sha256))
      return new Response(null, { status: 304, headers });
    return new Response(Uint8Array.from(content), { headers });
  };
}

/** A query whose answer is a photograph of people's own: no cache on the way keeps it, nor does the browser. */
export function privatePhotograph(
  work: (asked: Asked) => Promise<{ content: Uint8Array; sha256: string }>,
): RouteHandler {
  return async (request, context) => {
    const { content } = await work(await ask(request, context));
    return new Response(Uint8Array.from(content), {
      headers: {
        "Content-Type": "image/jpeg",
        "Cache-Control": "private, no-store",
        "X-Content-Type-Options": "nosniff",
        Vary: "Cookie, Authorization",
      },
    });
  };
}

/** Server-sent events. */
export function stream(work: (asked: Asked) => Promise<ReadableStream<Uint8Array>>): RouteHandler {
  return async (request, context) => eventStream(await work(await ask(request, context)));
}

/** Neither compressed nor held back by a proxy. */
const eventStream = (events: ReadableStream<Uint8Array>) =>
  new Response(events, {
    headers: {
      "Content-Type": "text/event-stream; charset=utf-8",
      "Cache-Control": "no-cache, no-transform",
      "X-Accel-Buffering": "no",
    },
  });

/**
 * A long computation: its answer as JSON, or for who accepts text/event-stream events `progress`, then `answer` or
 * `problem`. What is refused before it begins is an ordinary problem either way.
 */
export async function answerWithProgress(
  request: Request,
  work: (onProgress: (done: number) => void) => Promise<object>,
): Promise<Response> {
  if (!request.headers.get("accept")?.includes("text/event-stream")) return json(200, await work(() => {}));
  const text = new TextEncoder();
  let controller: ReadableStreamDefaultController<Uint8Array> | null = null;
  const events = new ReadableStream<Uint8Array>({
    start: (own) => {
      controller = own;
    },
    cancel: () => {
      controller = null;
    },
  });
  const send = (event: string, data: string) =>
    controller?.enqueue(text.encode(`event: ${event}\ndata: ${data}\n\n`));
  let begin = () => {};
  const begun = new Promise<void>((resolve) => {
    begin = resolve;
  });
  const working = work((done) => {
    send("progress", JSON.stringify({ done }));
    begin();
  });
  const sent = working.then(
    (answer) => send("answer", JSON.stringify(answer)),
    async (error) => send("problem", await problemOf(error, request).text()),
  );
  void sent.then(() => controller?.close());
  // A refusal before any progress is thrown, and becomes a problem with its own status.
  await Promise.race([begun, working]);
  return eventStream(events);
}

/** A query that takes long: its answer as `answerWithProgress` sends it, and no more work once nobody waits for it. */
export function readWithProgress(
  work: (
    asked: Asked,
    options: { onProgress: (done: number) => void; signal: AbortSignal },
  ) => Promise<object>,
): RouteHandler {
  return async (request, context) => {
    const asked = await ask(request, context);
    const { signal } = request;
    return answerWithProgress(request, (onProgress) => work(asked, { onProgress, signal }));
  };
}

/** What changes nothing that is stored, and comes with a body. */
export function readWithBody(work: (asked: Asked & { body: unknown }) => Promise<object>): RouteHandler {
  return async (request, context) => {
    mustBeSameOrigin(request);
    const asked = await ask(request, context);
    return json(200, await work({ ...asked, body: await readJson(request, BODY_LIMIT) }));
  };
}

/** A query about a file that comes with it: it changes nothing, and its answer is sent as JSON. */
export function readFile(
  limit: number,
  work: (asked: Asked & { bytes: Uint8Array }) => Promise<object>,
): RouteHandler {
  return async (request, context) => {
    mustBeSameOrigin(request);
    const asked = await ask(request, context);
    return json(200, await work({ ...asked, bytes: await readBytes(request, limit) }));
  };
}

/** A query whose question is too long for an address: it changes nothing, so it needs no key. */
export function readBody(work: (asked: Asked & { body: unknown }) => Promise<object>): RouteHandler {
  return async (request, context) => {
    mustBeSameOrigin(request);
    const asked = await ask(request, context);
    return json(200, await work({ ...asked, body: await readJson(request, BODY_LIMIT) }));
  };
}

export interface Download {
  content: string | Uint8Array;
  mediaType: string;
  fileName: string;
}

/** A query whose answer is a file to keep. */
export function download(work: (asked: Asked) => Promise<Download>): RouteHandler {
  return async (request, context) => {
    const { content, mediaType, fileName } = await work(await ask(request, context));
    return new Response(content as BodyInit, {
      headers: {
        "Content-Type": mediaType,
        "Content-Disposition": `attachment; filename="${fileName}"`,
        "Cache-Control": "no-store",
      },
    });
  };
}

const callOf = ({ db, actor, request }: Asked): Call => ({
  db,
  actor,
  key: request.headers.get("idempotency-key") ?? "",
});

const replied = (
  { status, answer, replayed }: Reply<object>,
  headers: Record<string, string> = {},
): Response => json(status, answer, { ...headers, ...(replayed && { "Idempotency-Replayed": "true" }) });

/** A command: its reply is sent as JSON with the status it names. */
export function write(
  work: (asked: AskedToWrite) => Promise<Reply<object>>,
  headersOf: (reply: Reply<object>, request: Request) => Record<string, string> = () => ({}),
  limit = BODY_LIMIT,
): RouteHandler {
  return async (request, context) => {
    mustBeSameOrigin(request);
    const asked = await ask(request, context);
    const body = await readJson(request, limit);
    const reply = await work({ ...asked, call: callOf(asked), body });
    return replied(reply, headersOf(reply, request));
  };
}

/** A command whose body is a file as it is. Its bytes are read when the command asks for them: once it knows from whom. */
export function writeFile(
  limit: number,
  work: (asked: Asked & { call: Call; bytes: () => Promise<Uint8Array> }) => Promise<Reply<object>>,
): RouteHandler {
  return async (request, context) => {
    mustBeSameOrigin(request);
    const asked = await ask(request, context);
    return replied(await work({ ...asked, call: callOf(asked), bytes: () => readBytes(request, limit) }));
  };
}

/**
 * What a route file exports: its own methods, and a problem that names them for all others. Errors of any of them
 * become problems here.
 */
export function methods(own: Partial<Record<Method, RouteHandler>>): Record<Method, RouteHandler> {
  const allowed = METHODS.filter((method) => own[method] || (method === "HEAD" && own.GET)).concat("OPTIONS");
  const allow = { Allow: allowed.join(", ") };
  const others: Partial<Record<Method, RouteHandler>> = {
    OPTIONS: async () => new Response(null, { status: 204, headers: allow }),
    ...(own.GET && { HEAD: headOf(own.GET) }),
  };
  const refuse: RouteHandler = async (request) =>
    problem(
      new Refusal(405, "method", `${request.method} does not work here. Allowed: ${allow.Allow}.`),
      allow,
    );
  return Object.fromEntries(
    METHODS.map((method) => [method, guarded(own[method] ?? others[method] ?? refuse)]),
  ) as Record<Method, RouteHandler>;
}

async function ask(request: Request, context: { params: Promise<unknown> }): Promise<Asked> {
  const db = await getDatabase();
  const token = tokenOf(request.headers.get("cookie"));
  const params = ((await context.params) ?? {}) as Record<string, string>;
  // PostgreSQL takes no text with a zero character, so nothing has such an id.
  if (Object.values(params).some((each) => each.includes("\0")))
    throw new Refusal(404, "not-found", "There is nothing at this address.");
  return {
    request,
    db,
    token,
    bearer: /^Bearer (\S{1,200})$/.exec(request.headers.get("authorization") ?? "")?.[1] ?? null,
    actor: await actorOfToken(db, token),
    params,
    query: Object.fromEntries(new URL(request.url).searchParams),
  };
}

function headOf(get: RouteHandler): RouteHandler {
  return async (request, context) => {
    const { status, headers, body } = await get(request, context);
    await body?.cancel();
    return new Response(null, { status, headers });
  };
}

function guarded(handler: RouteHandler): RouteHandler {
  return async (request, context) => {
    try {
      return await handler(request, context);
    } catch (error) {
      return problemOf(await whyNobody(error, request), request);
    }
  };
}

/** Who is told to sign in though they had: how their badge ended. */
async function whyNobody(error: unknown, request: Request): Promise<unknown> {
  const token = tokenOf(request.headers.get("cookie"));
  if (!token || !isRefusal(error) || error.code !== "sign-in") return error;
  const ended = await getDatabase()
    .then((db) => endedOfToken(db, token))
    .catch(() => null);
  if (!ended) return error;
  const help = ended.over.how === "past-end" ? "more time" : "a new code";
  const detail = `${endedWords(ended.over)}: this was not done. Ask the organiser for ${help}.`;
  return new Refusal(error.status, error.code, detail, error.errors, error.more);
}

/** As SQLite and as PostgreSQL say it. */
const DISK_FULL = /database or disk is full|No space left on device/;

/** The problem document of any error; what is no refusal goes to the log. */
function problemOf(error: unknown, request: Request): Response {
  if (isRefusal(error)) return problem(error);
  console.error(`${request.method} ${new URL(request.url).pathname} failed.`, error);
  if (DISK_FULL.test(String(error)))
    return problem(
      new Refusal(
        507,
        "disk-full",
        "The server's disk is full: this was not recorded, and nothing was half written. Have the organiser make room there, then send the same again with the same Idempotency-Key.",
      ),
    );
  return problem(
    new Refusal(
      500,
      "unexpected",
      "Something went wrong on the server; its log says what. Nothing was half written. Send the same again with the same Idempotency-Key.",
    ),
  );
}

/** Characters. An entry's answer has about 1200. */
const SHORT = 4000;

/** An answer that many share (contest/shared-reading.ts) is written once. */
const written = new WeakMap<object, string>();

export function json(status: number, answer: object, headers: Record<string, string> = {}): Response {
  const text = written.get(answer) ?? JSON.stringify(answer);
  written.set(answer, text);
  return new Response(text, {
    status,
    headers: {
      "Content-Type": "application/json",
      // Setting out to compress a short answer takes longer than sending it.
      "Cache-Control": text.length < SHORT ? "no-store, no-transform" : "no-store",
      ...headers,
    },
  });
}

export function problem(refusal: Refusal, headers: Record<string, string> = {}): Response {
  const { status, code, detail, errors, more, retryAfter } = refusal;
  const document: Problem = {
    type: "about:blank",
    title: STATUS_CODES[status] ?? "Refused",
    status,
    detail,
    code,
    ...(errors.length > 0 && { errors }),
    ...more,
  };
  return new Response(JSON.stringify(document), {
    status,
    headers: {
      "Content-Type": "application/problem+json",
      "Cache-Control": "no-store",
      ...(retryAfter !== undefined && { "Retry-After": String(retryAfter) }),
      ...headers,
    },
  });
}
