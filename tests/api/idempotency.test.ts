/** Sending twice is the same as sending once; a refused write may be sent again. */
import { randomUUID } from "node:crypto";
import { beforeAll, expect, test } from "vitest";
import { canonical, sha256 } from "@/lib/contest/scorebook";
import { committed } from "@/lib/contest/write";
import { bearingFix, expecting, type Fair, newFair, rowCounts, send } from "./fair";

let fair: Fair;
let shots: { id: string }[];

beforeAll(async () => {
  fair = await newFair(4);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
});

const division = (name: string, key: string | null, as = fair.tokens.organiser) =>
  send("POST", `${fair.base}/divisions`, { as, body: { name }, key });

test("the same key and body get the same answer and change nothing", async () => {
  const key = randomUUID();
  const first = await division("Twice", key);
  const before = await rowCounts(fair.db);
  const second = await division("Twice", key);
  expect([first.status, second.status]).toEqual([201, 201]);
  expect(await second.json()).toEqual(await first.json());
  expect(first.headers.get("idempotency-replayed")).toBeNull();
  expect(second.headers.get("idempotency-replayed")).toBe("true");
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("twenty of the same at once are one", async () => {
  const key = randomUUID();
  const answers = await Promise.all(
    Array.from({ length: 20 }, async () => {
      const response = await send("POST", `${fair.base}/shots/${shots[0]?.id}/fixes`, {
        as: fair.tokens.judge,
        body: { fix: bearingFix(61.25) },
        key,
      });
      return { status: response.status, answer: await response.json() };
    }),
  );
  expect(new Set(answers.map(({ status }) => status))).toEqual(new Set([201]));
  expect(new Set(answers.map(({ answer }) => answer.id)).size).toBe(1);
  expect(await fair.db.fix.count({ where: { shotId: shots[0]?.id ?? "" } })).toBe(1);
});

test("the same key with another body is refused, and the first answer stays", async () => {
  const key = randomUUID();
  const first = await (await division("Alpha", key)).json();
  const before = await rowCounts(fair.db);
  const second = await division("Beta", key);
  expect(second.status).toBe(422);
  expect((await second.json()).errors[0].field).toBe("Idempotency-Key");
  expect(await rowCounts(fair.db)).toEqual(before);
  expect(await (await division("Alpha", key)).json()).toEqual(first);
});

test("the same key of another sender is another key", async () => {
  const key = randomUUID();
  const rule = { entrantId: fair.entrantIds[0], decision: "competing", reason: "Came late" };
  const sent = { body: rule, key };
  const first = await expecting(201, "POST", `${fair.base}/rulings`, { ...sent, as: fair.tokens.judge });
  const second = await expecting(201, "POST", `${fair.base}/rulings`, { ...sent, as: fair.tokens.organiser });
  expect(second.id).not.toBe(first.id);
});

test("a refused write leaves its key free, so it may be sent again", async () => {
  const key = randomUUID();
  await division("Taken", randomUUID());
  expect((await division("Taken", key)).status).toBe(409);
  expect((await division("Free", key)).status).toBe(201);
});

test("a write without a fit key is refused with the header's name", async () => {
  for (const key of [null, "short", "with space in the middle"]) {
    const response = await division("Keyless", key);
    expect(response.status).toBe(400);
    expect((await response.json()).errors[0].field).toBe("Idempotency-Key");
  }
  expect(await fair.db.division.count({ where: { name: "Keyless" } })).toBe(0);
});

test("a code that was made is shown again to its sender, and lies in no row", async () => {
  const sent = { as: fair.tokens.organiser, body: { role: "judge", label: "Judge 9" }, key: randomUUID() };
  const first = await expecting(201, "POST", `${fair.base}/badges`, sent);
  expect(await expecting(201, "POST", `${fair.base}/badges`, sent)).toEqual(first);
  expect(first.code).toMatch(/^[0-9A-Z]{4}-[0-9A-Z]{4}-[0-9A-Z]{4}$/);
  const everything = JSON.stringify([
    await fair.db.idempotency.findMany(),
    await fair.db.badge.findMany(),
    await fair.db.scorebookEntry.findMany(),
  ]);
  expect(everything).not.toContain(first.code);
  expect(everything).not.toContain(first.code.replaceAll("-", ""));
  expect(everything).not.toContain(sent.key);
});

test("from what is kept of a request nobody can try out what it said; earlier versions' rows are still known", async () => {
  const call = { db: fair.db, actor: null, key: randomUUID() };
  const request = { act: "try", name: "Ros Brand" };
  const once = () => committed(call, null, request, async () => ({ done: true }));
  await once();
  const bare = sha256(canonical(request));
  const where = { key: `anyone:${sha256(call.key)}` };
  expect((await fair.db.idempotency.findUniqueOrThrow({ where })).requestHash).not.toBe(bare);
  await fair.db.idempotency.update({ where, data: { requestHash: bare } });
  expect((await once()).replayed).toBe(true);
});
