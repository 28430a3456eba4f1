/** Setting up, badges and sessions: who gets in, who does not, and that nobody else is locked out by them. */
import { randomUUID } from "node:crypto";
import { beforeAll, beforeEach, expect, test, vi } from "vitest";
import { ensureSetupCode, needsSetup } from "@/lib/contest";
import { failed, forgetAttempts, mayTry } from "@/lib/contest/attempts";
import { CODES, codeHash, codeTag, newCode, normalCode } from "@/lib/contest/badge-code";
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
    body: { role: "organiser", label: "Organiser at the brook", endsAt: null },
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
  const { signIns, next } = await expecting(200, "GET", `${base}/sign-ins`, { as: organiser });
  expect(signIns.slice(0, 3)).toMatchObject([
    { label: "Organiser at the brook", role: "organiser", device: "unknown device", refused: null },
    { label: "Organiser at the brook", device: "Android, Chrome" },
    { label: "Organiser 1" },
  ]);
  expect(next).toBeNull();
  expect((await expecting(200, "GET", `${base}/sign-ins?skip=2`, { as: organiser })).signIns).toEqual(
    signIns.slice(2),
  );
  await expect(db.signIn.deleteMany()).rejects.toThrow();
});

test("of two who use the setup code at once one gets in", async () => {
  const value = `${codeTag("0000-1111-2222")} ${await codeHash("0000-1111-2222")}`;
  await db.setting.create({ data: { key: "setup-code", value } });
  const tries = await Promise.all(
    ["twin-a", "twin-b"].map((slug) =>
      send("POST", "/setup", { body: { setupCode: "0000-1111-2222", contest: contestBody(slug) } }),
    ),
  );
  expect(tries.map((response) => response.status).sort()).toEqual([201, 401]);
});

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
  expect(JSON.stringify(listed)).not.toContain('"code"');
});

test("the last organiser cannot lock everybody out", async () => {
  const { badges } = await expecting(200, "GET", "/contests/first/badges", { as: organiser });
  const [own, ...others] = badges.filter(({ role }: { role: string }) => role === "organiser");
  for (const { id } of others)
    await expecting(200, "POST", `/contests/first/badges/${id}/revoke`, { as: organiser });
  await expecting(422, "POST", `/contests/first/badges/${own.id}/revoke`, { as: organiser });
  const endsAt = new Date(Date.now() + 3600_000).toISOString();
  const end = { as: organiser, body: { endsAt } };
  expect((await expecting(422, "PATCH", `/contests/first/badges/${own.id}`, end)).errors[0].field).toBe(
    "endsAt",
  );
  expect(await me(organiser)).not.toBeNull();
});

test("who has read most of a code is stopped after eight tries, and nobody else notices", async () => {
  const seen = newCode().slice(0, 9);
  await Promise.all(Array.from({ length: 8 }, (_, time) => trySignIn(401, `${seen}-000${time}`)));
  const response = await send("POST", "/sign-in", { body: { code: `${seen}-0009` } });
  expect(response.status).toBe(429);
  expect(Number(response.headers.get("retry-after"))).toBeGreaterThan(500);
  await signIn(organiserCode);
  const normal = normalCode(`${seen}-0009`) as string;
  expect(() => mayTry(normal)).toThrow();
  mayTry(normal, Date.now() + 11 * 60_000);
});

test("guessing at any badge is hopeless", () => {
  const tries = 10_000 * 3 * 24 * 3600;
  expect((tries * 200) / CODES).toBeLessThan(1e-6);
  const oftenPerDay = 8 * 6 * 24;
  expect(32 ** 4 / oftenPerDay / 365).toBeGreaterThan(2.4);
});

test("sixty people behind one router sign in within a minute, in a flood of wrong codes from the same address too", async () => {
  const body = (number: number) => ({ role: "judge", label: `Judge ${number}` });
  const makeOne = async (number: number): Promise<string> =>
    (await expecting(201, "POST", "/contests/first/badges", { as: organiser, body: body(number) })).code;
  const codes: string[] = [];
  for (let number = 0; number < 60; number++) codes.push(await makeOne(number));
  const sameAddress = { "x-forwarded-for": "192.0.2.7" };
  const trying = (code: string) => send("POST", "/sign-in", { body: { code }, headers: sameAddress });
  const flood = Array.from({ length: 800 }, () => trying(newCode()));
  const started = Date.now();
  const honest = await Promise.all(codes.map(trying));
  const took = Date.now() - started;
  expect(honest.filter(({ status }) => status !== 200)).toEqual([]);
  expect((await Promise.all(flood)).every(({ status }) => status === 401)).toBe(true);
  expect(took).toBeLessThan(10_000);
});

test("what a flood counts keeps to its size, and makes nobody wait", () => {
  const spread = (index: number) => Math.imul(index, 2654435761) >>> 0;
  for (let index = 0; index < 200_000; index++) failed(`${spread(index)}`.padStart(12, "7"));
  let waiting = 0;
  for (let index = 0; index < 1000; index++)
    try {
      mayTry(normalCode(newCode()) as string);
    } catch {
      waiting++;
    }
  expect(waiting).toBe(0);
});

test("no code comes into a log, whether it opens something or not", async () => {
  const said: string[] = [];
  const spies = (["log", "info", "warn", "error", "debug"] as const).map((level) =>
    vi.spyOn(console, level).mockImplementation((...parts) => void said.push(JSON.stringify(parts))),
  );
  const wrong = newCode();
  await trySignIn(401, wrong);
  await signIn(organiserCode);
  await send("POST", "/sign-in", { text: `{"code":"${wrong}"` });
  for (const spy of spies) spy.mockRestore();
  for (const code of [wrong, organiserCode])
    for (const form of [code, normalCode(code) as string]) expect(said.join()).not.toContain(form);
  // In the database it stands hashed, and what a key replays is sealed.
  const rows = JSON.stringify([await db.badge.findMany(), await db.idempotency.findMany()]);
  for (const form of [organiserCode, normalCode(organiserCode)]) expect(rows).not.toContain(form);
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
