/** Badges that end, and codes that sign in one device once: whoever stands in the field with a phone gets on all the same. */
import { randomUUID } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { sha256 } from "@/lib/contest/scorebook";
import { type Answer, bearingFix, contestBody, expecting, type Fair, newFair, send, signIn } from "./fair";

let fair: Fair;
let shots: Answer[];
const HOUR = 3600_000;
const inHours = (hours: number) => new Date(Date.now() + hours * HOUR).toISOString();
const organise = (status: number, method: string, path: string, body?: unknown) =>
  fair.as("organiser")(status, method, path, body);
const newJudge = (label: string, more = {}) =>
  organise(201, "POST", "/badges", { role: "judge", label, ...more });
const trySignIn = (status: number, code: string, key: string = randomUUID()) =>
  expecting(status, "POST", "/sign-in", { body: { code }, key });
const me = (as: string) => expecting(200, "GET", "/me", { as });
const enter = (status: number, as: string, observedAt: string, shot = 0) =>
  expecting(status, "POST", `${fair.base}/shots/${shots[shot].id}/fixes`, {
    as,
    body: { fix: bearingFix(60), observedAt },
  });
/** The time of a badge runs out: what its end is, no request may set to the past. */
const endAgo = (id: string, ms: number) =>
  fair.db.badge.update({ where: { id }, data: { endsAt: new Date(Date.now() - ms) } });

beforeAll(async () => {
  fair = await newFair(2);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
});

test("without a word it ends 36 hours after the contest's last day, and an organiser's has no end only on purpose", async () => {
  const usual = "2031-10-06T12:00:00.000Z";
  expect(await newJudge("Usual")).toMatchObject({
    endsAt: usual,
    reusable: false,
    codeUsedAt: null,
    devices: 0,
  });
  const second = { role: "organiser", label: "Second" };
  expect(await organise(201, "POST", "/badges", second)).toMatchObject({ endsAt: usual, reusable: false });
  expect(await organise(201, "POST", "/badges", { ...second, endsAt: null })).toMatchObject({
    endsAt: null,
    reusable: true,
  });
  for (const [endsAt, words] of [
    [null, "Only an organiser"],
    [inHours(-1), "over already"],
    ["2033-01-01T00:00:00Z", "more than a year"],
    ["tomorrow", "endsAt"],
  ] as const) {
    const problem = await organise(422, "POST", "/badges", { role: "judge", label: "Odd", endsAt });
    expect(problem.errors[0].field).toBe("endsAt");
    expect(problem.detail).toContain(words);
  }
  // The days of this one are over: it can be looked at for a week more.
  const past = { ...contestBody("long-ago"), date: "2020-05-01" };
  const { badge } = await expecting(201, "POST", "/contests", { as: fair.tokens.organiser, body: past });
  const there = await signIn(badge.code);
  const body = { role: "judge", label: "Late" };
  const { endsAt } = await expecting(201, "POST", "/contests/long-ago/badges", { as: there, body });
  expect(Date.parse(endsAt) - Date.now()).toBeGreaterThan(6.9 * 24 * HOUR);
});

test("a code signs in one device once; of two who share a card at once, one", async () => {
  const { code, id } = await newJudge("Shared card");
  const both = await Promise.all([1, 2].map(() => send("POST", "/sign-in", { body: { code } })));
  expect(both.map(({ status }) => status).sort()).toEqual([200, 401]);
  const problem = await trySignIn(401, code);
  expect(problem).toMatchObject({ code: "code-over", refused: "used", errors: [{ field: "code" }] });
  expect(problem.detail).toMatch(/signed in a device already \(unknown device, .* UTC\).*Ask the organiser/);
  const { badges } = await organise(200, "GET", "/badges");
  expect(badges.find((badge: Answer) => badge.id === id)).toMatchObject({
    devices: 1,
    signIns: { count: 1 },
  });
  const { signIns } = await organise(200, "GET", "/sign-ins");
  expect(signIns.slice(0, 3).map(({ refused }: Answer) => refused)).toEqual(["used", "used", null]);
});

test("a sign-in whose answer got lost is answered again, and burns nothing", async () => {
  const { code, id } = await newJudge("Lost answer");
  const key = randomUUID();
  const answers = [await trySignIn(200, code, key), await trySignIn(200, code, key)];
  expect(answers[0]).toEqual(answers[1]);
  expect(await fair.db.session.count({ where: { badgeId: id } })).toBe(1);
  // Another key is another device.
  await trySignIn(401, code);
  // A wrong code burns nothing either, nor does the key.
  const other = await newJudge("Mistyped");
  await trySignIn(401, "AAAA-BBBB-CCCC", key.replace(/^./, "x"));
  await trySignIn(200, other.code, key.replace(/^./, "x"));
});

test("a phone that lost its sign-in gets a new code for the same badge; the others go on, or end", async () => {
  const { code, id } = await newJudge("Field judge");
  const first = await signIn(code);
  const unused = (await organise(201, "POST", `/badges/${id}/code`, { devices: "add" })).code;
  const added = (await organise(201, "POST", `/badges/${id}/code`, { devices: "add" })).code;
  expect((await trySignIn(401, unused)).code).toBe("wrong-code");
  const second = await signIn(added);
  expect((await me(first)).badge.id).toBe((await me(second)).badge.id);

  const before = inHours(-0.001);
  const { code: last, devices } = await organise(201, "POST", `/badges/${id}/code`, { devices: "replace" });
  expect(devices).toBe(0);
  expect(await me(first)).toMatchObject({ badge: null, ended: { how: "replaced", label: "Field judge" } });
  const third = await signIn(last);
  // What the lost phone had seen before waits, as with a revoked badge.
  const held = await enter(201, second, before);
  expect(held.held).toMatchObject({ state: "waiting", ended: "replaced" });
  expect((await enter(403, second, inHours(0.01))).detail).toMatch(/^Another device took this one's place/);
  expect((await enter(201, third, inHours(-0.0005))).held).toBeNull();

  // An organiser does not sign themselves out with it.
  const [own] = (await organise(200, "GET", "/badges")).badges;
  const problem = await organise(422, "POST", `/badges/${own.id}/code`, { devices: "replace" });
  expect(problem.errors[0].field).toBe("devices");
});

test("the end ends what its sessions may do; what was seen before is held, and more time takes all up again", async () => {
  const { code, id } = await newJudge("Until six", { endsAt: inHours(2) });
  const token = await signIn(code);
  expect(Date.parse((await me(token)).badge.expiresAt) - Date.now()).toBeLessThan(2 * HOUR);
  await endAgo(id, 60_000);
  expect(await me(token)).toMatchObject({ badge: null, ended: { how: "past-end", contestSlug: fair.slug } });
  const wind = { speed: 2, gust: 4, direction: 90, observer: "Line post" };
  const problem = await expecting(401, "POST", `${fair.base}/wind-readings`, { as: token, body: wind });
  expect(problem).toMatchObject({ code: "sign-in" });
  expect(problem.detail).toMatch(
    /^This badge ended at .* UTC: this was not done. Ask the organiser for more time/,
  );
  const held = await enter(201, token, new Date(Date.now() - 90_000).toISOString(), 1);
  expect(held.held).toMatchObject({ state: "waiting", ended: "past-end" });
  expect((await enter(403, token, new Date().toISOString(), 1)).code).toBe("badge-ended");
  expect((await trySignIn(401, code)).refused).toBe("past-end");
  expect((await organise(409, "POST", `/badges/${id}/code`, { devices: "add" })).detail).toContain(
    "later end",
  );

  await organise(200, "PATCH", `/badges/${id}`, { endsAt: inHours(1) });
  expect((await me(token)).badge).toMatchObject({ label: "Until six" });
  expect((await enter(201, token, new Date().toISOString(), 1)).held).toBeNull();
  // A week after the end nothing is delivered any more.
  await endAgo(id, 8 * 24 * HOUR);
  expect(await me(token)).toEqual({ badge: null, ended: null });
  await enter(401, token, new Date(Date.now() - 9 * 24 * HOUR).toISOString(), 1);

  await organise(200, "POST", `/badges/${id}/revoke`);
  expect((await organise(409, "PATCH", `/badges/${id}`, { endsAt: inHours(1) })).code).toBe("badge-revoked");
  await organise(409, "POST", `/badges/${id}/code`, { devices: "add" });
});

test("the scorebook tells each of it, and nothing of the codes", async () => {
  const { entries, verification } = await organise(200, "GET", "/scorebook?limit=200&verify=1");
  expect(verification.holds).toBe(true);
  const acts = entries.map(({ act }: Answer) => act);
  expect(acts).toEqual(expect.arrayContaining(["badge-made", "badge-code-made", "badge-end-set"]));
  const made = entries.find(({ act }: Answer) => act === "badge-made");
  expect(Object.keys(JSON.parse(made.body)).sort()).toEqual(expect.arrayContaining(["endsAt", "role"]));
  const sessions = await fair.db.session.findMany();
  expect(JSON.stringify(entries)).not.toContain(sessions[0]?.tokenHash ?? sha256(""));
});
