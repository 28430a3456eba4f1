/**
 * A small fair for the API tests: a contest on a database of its own, one badge a role, and requests that go through
 * the route files themselves. Machines are of the kind that computes fastest.
 */
import { randomUUID } from "node:crypto";
import { afterAll, expect } from "vitest";
import type { z } from "zod";
import type { Role } from "@/lib/api/contracts";
import type { RouteHandler } from "@/lib/api/handler";
import { ANSWERS, ROUTES } from "@/lib/api/routes";
import { SESSION_COOKIE } from "@/lib/api/session";
import { ensureSetupCode } from "@/lib/contest";
import { forgetAttempts } from "@/lib/contest/attempts";
import { closeHazardQueue } from "@/lib/contest/hazard-queue";
import { closeRanges } from "@/lib/contest/range/watch";
import { closeRehearsals } from "@/lib/contest/rehearsal/play";
import { closeDatabase, type Database, getDatabase, migrate } from "@/lib/db";
import { direct } from "@/lib/earth";
import { closeLive } from "@/lib/live";
import { freshPlace } from "@/tests/database";

// ---------------------------------------------------------------- requests

const modules = import.meta.glob<Record<string, RouteHandler>>("/app/api/v1/**/route.ts");

/** Every route file by its address below /api/v1, such as /contests/[contest]/fixes. */
export const ROUTE_FILES = Object.keys(modules).map((file) =>
  file.slice("/app/api/v1".length, -"/route.ts".length),
);

/** The route file that serves a path, as the framework would choose it: fixed words before parameters. */
function routeOf(path: string): { file: string; params: Record<string, string> } {
  const words = path.split("/").filter(Boolean);
  const candidates = ROUTE_FILES.filter((file) => !file.includes("...")).flatMap((file) => {
    const parts = file.split("/").filter(Boolean);
    if (parts.length !== words.length) return [];
    const params: Record<string, string> = {};
    for (const [index, part] of parts.entries()) {
      const word = words[index] as string;
      if (part.startsWith("[")) params[part.slice(1, -1)] = decodeURIComponent(word);
      else if (part !== word) return [];
    }
    return [{ file, params }];
  });
  candidates.sort((a, b) => Object.keys(a.params).length - Object.keys(b.params).length);
  return candidates[0] ?? { file: "/[...rest]", params: {} };
}

export interface Sent {
  /** The session's token. */
  as?: string | null;
  body?: unknown;
  /** Sent as it is, in place of `body`. */
  text?: string;
  /** A file as it is, in place of `body`. */
  bytes?: Uint8Array;
  key?: string | null;
  headers?: Record<string, string>;
  signal?: AbortSignal;
}

export async function send(method: string, path: string, sent: Sent = {}): Promise<Response> {
  const url = new URL(`http://fair.test/api/v1${path}`);
  const { file, params } = routeOf(url.pathname.slice("/api/v1".length));
  const handlers = await (
    modules[`/app/api/v1${file}/route.ts`] as () => Promise<Record<string, RouteHandler>>
  )();
  const headers = new Headers(sent.headers);
  if (sent.as) headers.set("cookie", `${SESSION_COOKIE}=${sent.as}`);
  const writes = method !== "GET" && method !== "HEAD";
  if (writes && !headers.has("content-type"))
    headers.set("content-type", sent.bytes ? "application/octet-stream" : "application/json");
  if (writes && sent.key !== null) headers.set("idempotency-key", sent.key ?? randomUUID());
  const body = writes ? (sent.bytes ?? sent.text ?? JSON.stringify(sent.body ?? {})) : null;
  const request = new Request(url, {
    method,
    headers,
    body: body as BodyInit | null,
    ...(sent.signal && { signal: sent.signal }),
  });
  return (handlers[method] as RouteHandler)(request, { params: Promise.resolve(params) });
}

// biome-ignore lint/suspicious/noExplicitAny: tests read answers freely
export type Answer = any;

/** Sends, expects the status, and gives back the answer. */
export async function expecting(
  status: number,
  method: string,
  path: string,
  sent: Sent = {},
): Promise<Answer> {
  const response = await send(method, path, sent);
  const text = await response.text();
  expect(response.status, `${method} ${path}: ${text}`).toBe(status);
  const type = status >= 400 ? /^application\/problem\+json/ : /^application\/(geo\+)?json/;
  expect(response.headers.get("content-type")).toMatch(type);
  const answer = JSON.parse(text);
  mustKeepTo(status >= 400 ? ANSWERS.Problem : contractOf(method, path), answer);
  return answer;
}

/** What the documented route of a path promises to answer. */
function contractOf(method: string, path: string): z.ZodType {
  const address = path.split("?")[0] as string;
  const route = ROUTES.find(
    (each) =>
      each.method === method.toLowerCase() &&
      new RegExp(`^${each.path.replace(/\{\w+\}/g, "[^/]+")}$`).test(address),
  );
  if (!route) throw new Error(`${method} ${address} is not documented.`);
  return ANSWERS[route.answer];
}

/** Nothing may be missing, and nothing there that is not documented. */
function mustKeepTo(contract: z.ZodType, answer: unknown): void {
  expect(contract.parse(answer)).toEqual(answer);
}

// ---------------------------------------------------------------- the fair

export const MIDDLE = { latitude: 44.2, longitude: -31.6 };

/** A point so many metres on a bearing from the middle, longitude first. */
export function at(bearing: number, distance: number): [number, number] {
  const { latitude, longitude } = direct(MIDDLE, bearing, distance);
  return [longitude, latitude];
}

export const square = (half: number) => {
  const corner = half * Math.SQRT2;
  return {
    type: "Polygon",
    coordinates: [[at(225, corner), at(135, corner), at(45, corner), at(315, corner), at(225, corner)]],
  };
};

/** `speed` m/s; exact, so that a sheet takes a moment. */
export const declaration = (speed = 25) => ({
  machine: { kind: "measured", releaseSpeed: speed, launchAngle: 42, launchHeight: 2 },
  projectile: { mass: 3, diameter: 0.2 },
  tolerances: { releaseSpeed: 0, launchAngle: 0, launchHeight: 0, mass: 0, diameter: 0 },
});

export const contestBody = (slug: string) => ({
  slug,
  name: `Fair ${slug}`,
  date: "2031-10-04",
  ...MIDDLE,
  height: 50,
  rounds: 3,
});

export interface Fair {
  db: Database;
  slug: string;
  base: string;
  contestId: string;
  /** Session tokens; `rival` is the team of another entrant. */
  tokens: Record<Role | "rival", string>;
  codes: Record<Role | "rival", string>;
  divisionId: string;
  entrantIds: string[];
  machineIds: string[];
  firingPointId: string;
  /** As an organiser, expecting 200 or 201. */
  lay: (method: string, path: string, body: unknown) => Promise<Answer>;
  as: (
    role: Role | "rival",
  ) => (status: number, method: string, path: string, body?: unknown) => Promise<Answer>;
}

const cleaning: (() => Promise<void>)[] = [];
// At the top level, where every test file that imports this one runs it: inside a hook it would not be heard.
afterAll(async () => {
  closeRehearsals();
  closeRanges();
  await closeLive();
  await closeHazardQueue();
  await closeDatabase();
  for (const clean of cleaning.splice(0)) await clean();
});

/** An empty migrated database that the routes use; closed after the file's tests. */
export async function openFairDatabase(): Promise<Database> {
  const place = await freshPlace();
  process.env.DATABASE_URL = place.url;
  await migrate(place.url);
  forgetAttempts();
  cleaning.push(place.remove);
  return getDatabase();
}

/** A contest with one division, `entrants` of them each with a placed machine, and a badge for every role. */
export async function newFair(entrants = 2): Promise<Fair> {
  const db = await openFairDatabase();
  const slug = "test-fair";
  const base = `/contests/${slug}`;
  const setupCode = await ensureSetupCode(db);
  const { contest, badge } = await expecting(201, "POST", "/setup", {
    body: { setupCode, contest: contestBody(slug) },
  });
  const organiser = await signIn(badge.code);
  const lay: Fair["lay"] = async (method, path, body) => {
    const response = await send(method, `${base}${path}`, { as: organiser, body });
    const answer = await response.json();
    expect(response.ok, JSON.stringify(answer)).toBe(true);
    return answer;
  };

  const divisionId = (await lay("POST", "/divisions", { name: "Open" })).id;
  const [longitude, latitude] = at(0, 0);
  const firingPointId = (await lay("POST", "/firing-points", { latitude, longitude })).id;
  await lay("POST", "/features", { kind: "boundary", name: "Hedge", geometry: square(400) });
  const entrantIds: string[] = [];
  const machineIds: string[] = [];
  for (let number = 1; number <= entrants; number++) {
    const { id: entrantId } = await lay("POST", "/entrants", { divisionId, name: `Team ${number}` });
    const { id } = await lay("POST", "/machines", {
      entrantId,
      name: `Machine ${number}`,
      declaration: declaration(),
    });
    await lay("PATCH", `/machines/${id}/placement`, { firingPointId, bearing: 90 });
    entrantIds.push(entrantId);
    machineIds.push(id);
  }

  const codes: Fair["codes"] = {
    organiser: badge.code,
    "safety-officer": "",
    judge: "",
    team: "",
    rival: "",
  };
  const badges = [
    ["safety-officer", { role: "safety-officer", label: "Safety officer" }],
    ["judge", { role: "judge", label: "Judge 1" }],
    ["team", { role: "team", label: "Team 1", entrantId: entrantIds[0] }],
    ["rival", { role: "team", label: "Team 2", entrantId: entrantIds[1] }],
  ] as const;
  for (const [who, body] of badges) codes[who] = (await lay("POST", "/badges", body)).code;
  const tokens = { ...codes };
  for (const who of Object.keys(codes) as (keyof typeof codes)[]) tokens[who] = await signIn(codes[who]);
  return {
    db,
    slug,
    base,
    contestId: contest.id,
    tokens,
    codes,
    divisionId,
    entrantIds,
    machineIds,
    firingPointId,
    lay,
    as: (role) => (status, method, path, body) =>
      expecting(status, method, `${base}${path}`, { as: tokens[role], body }),
  };
}

/** The token of a new session. */
export async function signIn(code: string): Promise<string> {
  const response = await send("POST", "/sign-in", { body: { code } });
  expect(response.status, await response.clone().text()).toBe(200);
  const cookie = response.headers.get("set-cookie") ?? "";
  return cookie.match(new RegExp(`${SESSION_COOKIE}=([^;]+)`))?.[1] ?? "";
}

export const bearingFix = (distance: number, bearing = 90) => ({
  outcome: "landed",
  method: "bearing-distance",
  bearing,
  distance,
});

/** How many rows a write could leave behind, table by table; not what the program computes meanwhile by itself. */
export async function rowCounts(db: Database): Promise<Record<string, number>> {
  const tables = [
    "contest",
    "division",
    "entrant",
    "machine",
    "machineRevision",
    "siteFeature",
    "firingPoint",
    "controlPoint",
    "spotHeight",
    "aerialPicture",
    "windReading",
    "barrier",
    "consent",
    "safetyPlan",
    "safetyFile",
    "shot",
    "firingOrder",
    "turn",
    "fix",
    "heldFix",
    "heldDecision",
    "sighting",
    "ruling",
    "protest",
    "inspection",
    "permit",
    "permitWithdrawal",
    "entryLink",
    "teamEntry",
    "entryPerson",
    "entryPhotograph",
    "incident",
    "incidentReport",
    "incidentPiece",
    "incidentWords",
    "badge",
    "idempotency",
  ] as const;
  const counts = await Promise.all(
    tables.map((table) => (db[table] as { count(): Promise<number> }).count()),
  );
  const official = await db.scorebookEntry.count({ where: { NOT: { act: "sheet-computed" } } });
  return { ...Object.fromEntries(tables.map((table, index) => [table, counts[index] ?? 0])), official };
}
