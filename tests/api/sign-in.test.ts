/** Setting up, badges and sessions: who gets in, who does not, and that nobody else is locked out by them. */
import { randomUUID } from "node:crypto";
import { beforeAll, beforeEach, expect, test } from "vitest";
import { ensureSetupCode, needsSetup } from "@/lib/contest";
import { failed, forgetAttempts, mayTry } from "@/lib/contest/attempts";
import { newCode, normalCode } from "@/lib/contest/badge-code";
import type { Database } from "@/lib/db";
import { contestBody, expecting, openFairDatabase, send, signIn } from "./fair";

let db: Database;
let organiser: string;
let organiserCode: string;

beforeAll(async () => {
  db = await openFairDatabase();
});
beforeEach(forgetAttempts);

const setup = (status: number, setupCode: string, key = randomUUID()) =>
  expecting(status, "POST", "/setup", { body: { setupCode, contest: contestBody("first") }, key });
const trySignIn = (status: number, code: string) => expecting(status, "POST", "/sign-in", { body: { code } });
const me = async (token: string) => (await expecting(200, "GET", "/me", { as: token })).badge;

test("the setup code makes the first contest and its organiser, once", async () => {
  const old = await ensureSetupCode(db);
  const code = (await ensureSetupCode(db)) as string;
  expect(code).not.toBe(old);
  expect(JSON.stringify(await db.setting.findMany())).not.toContain(normalCode(code));
  expect((await setup(401, old as string)).errors[0].field).toBe("setupCode");
  expect((await setup(401, newCode())).code).toBe("wrong-setup-code");
  expect(await db.contest.count()).toBe(0);
  expect(await needsSetup(db)).toBe(true);

  const key = randomUUID();
  const made = await setup(201, code.toLowerCase().replaceAll("-", " "), key);
  expect(await setup(201, code.toLowerCase().replaceAll("-", " "), key)).toEqual(made);
  expect((await setup(401, code)).code).toBe("wrong-setup-code");
  expect(await db.contest.count()).toBe(1);
  expect(await ensureSetupCode(db)).toBeNull();
  expect(await needsSetup(db)).toBe(false);
  organiserCode = made.badge.code;
  organiser = await signIn(organiserCode);
  expect(await me(organiser)).toMatchObject({
    role: "organiser",
    contestSlug: "first",
    label: "Organiser 1",
  });
});

test("who signed in, when and on what kind of device is told to organisers, and stays", async () => {
  const base = "/contests/first";
  const { code, id } = await expecting(201, "POST", `${base}/badges`, {
    as: organiser,
    body: { role: "judge", label: "Judge at the brook" },
  });
  const badges = async () => expecting(200, "GET", `${base}/badges`, { as: organiser });
  const logOf = async () => (await badges()).badges.find((badge: { id: string }) => badge.id === id).signIns;
  expect(await logOf()).toEqual({ count: 0, last: [] });
  const phone =
    "Mozilla/5.0 (Linux; Android 14; Some Phone) AppleWebKit/537.36 (KHTML, like Gecko) Chrome/126.0.0.0 Mobile Safari/537.36";
  const key = randomUUID();
  for (let twice = 0; twice < 2; twice++)
    await expecting(200, "POST", "/sign-in", { body: { code }, key, headers: { "user-agent": phone } });
  await expecting(200, "POST", "/sign-in", { body: { code }, headers: { "user-agent": "curl/8" } });
  await trySignIn(401, newCode());
  const log = await logOf();
  expect(log.count).toBe(2);
  expect(log.last.map(({ device }: { device: string }) => device)).toEqual([
    "unknown device",
    "Android, Chrome",
  ]);
  expect(JSON.stringify(await db.signIn.findMany())).not.toContain("Some Phone");
  await expect(db.signIn.deleteMany()).rejects.toThrow();
});

test("of two who use the setup code at once one gets in", async () => {
  await db.setting.create({ data: { key: "setup-code", value: await codeHashOf("0000-1111-2222") } });
  const tries = await Promise.all(
    ["twin-a", "twin-b"].map((slug) =>
      send("POST", "/setup", { body: { setupCode: "0000-1111-2222", contest: contestBody(slug) } }),
    ),
  );
  expect(tries.map((response) => response.status).sort()).toEqual([201, 401]);
});
const codeHashOf = async (code: string) => (await import("@/lib/contest/badge-code")).codeHash(code);

test("codes have 60 random bits in letters that are hard to mistake", () => {
  const codes = new Set(Array.from({ length: 500 }, newCode));
  expect(codes.size).toBe(500);
  for (const code of codes) expect(code).toMatch(/^([0-9A-HJKMNP-TV-Z]{4}-){2}[0-9A-HJKMNP-TV-Z]{4}$/);
  expect(normalCode(" 7kqm 3xwd-r9tb ")).toBe("7KQM3XWDR9TB");
  expect(normalCode("OIL0-1111-2222")).toBe("011011112222");
  expect(normalCode("7KQM-3XWD")).toBeNull();
  expect(normalCode("7KQM-3XWD-R9TU")).toBeNull();
});

test("the cookie is HttpOnly, Lax, and Secure only when it came by https", async () => {
  const cookieOf = async (headers: Record<string, string>) => {
    const response = await send("POST", "/sign-in", { body: { code: organiserCode }, headers });
    return response.headers.get("set-cookie") ?? "";
  };
  const plain = await cookieOf({});
  expect(plain).toMatch(/; HttpOnly; SameSite=Lax$/);
  expect(plain).toMatch(/; Path=\/; Expires=/);
  expect(await cookieOf({ "x-forwarded-proto": "https" })).toMatch(/; HttpOnly; SameSite=Lax; Secure$/);
});

test("a sign-in sent twice is one session, and no token lies in the database", async () => {
  const key = randomUUID();
  const before = await db.session.count();
  const cookies = [];
  for (let time = 0; time < 2; time++) {
    const response = await send("POST", "/sign-in", { body: { code: organiserCode }, key });
    cookies.push(response.headers.get("set-cookie"));
  }
  expect(cookies[0]).toBe(cookies[1]);
  expect(await db.session.count()).toBe(before + 1);
  const token = cookies[0]?.match(/=([^;]+)/)?.[1] as string;
  const rows = JSON.stringify([await db.session.findMany(), await db.idempotency.findMany()]);
  expect(rows).not.toContain(token);
});

test("wrong codes are told apart from what cannot be a code, and both name the field", async () => {
  for (const code of ["what is it", newCode()]) {
    const problem = await trySignIn(401, code);
    expect(problem).toMatchObject({ code: "wrong-code", errors: [{ field: "code" }] });
  }
  expect((await trySignIn(422, "")).errors[0].field).toBe("code");
});

test("signing out ends the session, and doing it twice is the same", async () => {
  const token = await signIn(organiserCode);
  for (let time = 0; time < 2; time++) {
    const response = await send("POST", "/sign-out", { as: token });
    expect(response.status).toBe(200);
    expect(response.headers.get("set-cookie")).toContain("Expires=Thu, 01 Jan 1970");
  }
  expect(await me(token)).toBeNull();
  expect(await me(organiser)).not.toBeNull();
});

test("an expired session is nobody's", async () => {
  const token = await signIn(organiserCode);
  const [newest] = await db.session.findMany({ orderBy: { createdAt: "desc" }, take: 1 });
  const where = { tokenHash: newest?.tokenHash ?? "" };
  await db.session.update({ where, data: { expiresAt: new Date(Date.now() - 1000) } });
  expect(await me(token)).toBeNull();
});

test("a revoked badge ends its sessions and signs in no more", async () => {
  const badges = "/contests/first/badges";
  const made = await expecting(201, "POST", badges, {
    as: organiser,
    body: { role: "judge", label: "Judge 1" },
  });
  const token = await signIn(made.code);
  expect(await me(token)).toMatchObject({ role: "judge" });
  await expecting(200, "POST", `${badges}/${made.id}/revoke`, { as: organiser });
  expect(await me(token)).toBeNull();
  expect((await trySignIn(401, made.code)).detail).toContain("revoked");
  const listed = (await expecting(200, "GET", badges, { as: organiser })).badges;
  expect(listed.find((badge: { id: string }) => badge.id === made.id).revokedAt).not.toBeNull();
  expect(JSON.stringify(listed)).not.toContain("code");
});

test("the last organiser cannot lock everybody out", async () => {
  const [own] = (await expecting(200, "GET", "/contests/first/badges", { as: organiser })).badges;
  await expecting(422, "POST", `/contests/first/badges/${own.id}/revoke`, { as: organiser });
  expect(await me(organiser)).not.toBeNull();
});

test("guessing at one badge is stopped after eight tries, and nobody else notices", async () => {
  const prefix = newCode().slice(0, 4);
  for (let time = 0; time < 8; time++) await trySignIn(401, `${prefix}-0000-000${time}`);
  const response = await send("POST", "/sign-in", { body: { code: `${prefix}-0000-0009` } });
  expect(response.status).toBe(429);
  expect(Number(response.headers.get("retry-after"))).toBeGreaterThan(500);
  await signIn(organiserCode);
});

test("a flood of wrong codes slows sign-ins down but locks nobody out", async () => {
  for (let index = 0; index < 600; index++) failed(index.toString(32).padStart(4, "0").toUpperCase());
  const before = Date.now();
  await Promise.all([mayTry("ZZZZ0000"), mayTry("ZZZZ0000"), mayTry("ZZZZ0000")]);
  expect(Date.now() - before).toBeGreaterThanOrEqual(190);
  await signIn(organiserCode);
  // A minute's worth of others in the lane: told to come back, not counted as a failure.
  const many = await Promise.allSettled(Array.from({ length: 140 }, () => mayTry("ZZZZ0000")));
  const refused = many.filter((result) => result.status === "rejected");
  expect(refused.length).toBeGreaterThan(0);
  expect(refused.length).toBeLessThan(60);
  // Ten minutes later nothing of it is left.
  const later = Date.now() + 11 * 60_000;
  const start = Date.now();
  await mayTry("ZZZZ0000", later);
  expect(Date.now() - start).toBeLessThan(190);
});

test.each([
  ["cross-site by Sec-Fetch-Site", { "sec-fetch-site": "cross-site" }, 403],
  ["same-site, another origin", { "sec-fetch-site": "same-site" }, 403],
  ["another Origin", { origin: "https://elsewhere.test", host: "fair.test" }, 403],
  ["an opaque Origin", { origin: "null", host: "fair.test" }, 403],
  ["this Origin", { origin: "http://fair.test", host: "fair.test" }, 200],
  [
    "this Origin behind a proxy",
    { origin: "https://fair.test", host: "inside:3000", "x-forwarded-host": "fair.test" },
    200,
  ],
  ["the page itself", { "sec-fetch-site": "same-origin" }, 200],
  ["a script without a browser", {}, 200],
])("a write from %s", async (_, headers, status) => {
  const response = await send("POST", "/sign-in", { body: { code: organiserCode }, headers });
  expect(response.status).toBe(status);
  if (status === 403) expect((await response.json()).code).toBe("cross-site");
});
