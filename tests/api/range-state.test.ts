/** The range of the day through the API: one turn, holds in every order, the disk full. */
import { beforeAll, beforeEach, expect, test } from "vitest";
import type { RangeBrief, RangeView, TurnInfo } from "@/lib/api/contracts";
import { allSheets, verifyScorebook } from "@/lib/contest";
import { closeLive } from "@/lib/live";
import { engine } from "@/tests/database";
import { type Answer, expecting, type Fair, newFair, send } from "./fair";
import { permit, readyRange } from "./ready-range";

let fair: Fair;
let posts: string[];
let heron: string;
let onion: string;

beforeAll(async () => {
  fair = await newFair(2);
  [heron, onion] = fair.machineIds as [string, string];
  posts = await readyRange(fair);
});

const officer = (status: number, method: string, path: string, body: object = {}) =>
  fair.as("safety-officer")(status, method, `/range${path}`, body);
const judge = (status: number, method: string, path: string, body: object = {}) =>
  fair.as("judge")(status, method, `/range${path}`, body);
const view = (machine?: string): Promise<RangeView> =>
  expecting(200, "GET", `${fair.base}/range${machine ? `?machine=${machine}` : ""}`);

const PHONE = "a phone at the post";
async function change(machineId: string, to: string, status = 200): Promise<Answer> {
  const machine = (await view()).machines.find(({ id }) => id === machineId);
  if (!machine) throw new Error("This machine is not on the range.");
  return officer(status, "PUT", `/machines/${machineId}`, { to, step: machine.step });
}
const say = async (post: string, clear = true, status = 200) =>
  judge(status, "PUT", `/posts/${post}`, { clear, turn: (await view()).turn, phone: PHONE });
async function tickAll(machineId: string): Promise<void> {
  const { firing, turn } = await view(machineId);
  for (const { key } of firing?.standClear ?? [])
    await officer(200, "PUT", "/stand-clear", { machineId, version: firing?.version, key, done: true, turn });
}
async function makeHot(machineId = heron): Promise<RangeBrief> {
  await change(machineId, "raising");
  await change(machineId, "armed");
  for (const post of posts) await say(post);
  await tickAll(machineId);
  return officer(200, "POST", "/hot", { machineId, turn: (await view()).turn });
}
const lift = async () => officer(200, "POST", "/lift", { holds: (await view()).holds.map(({ id }) => id) });

/** Cold, whatever a test has left behind. */
beforeEach(async () => {
  const { hot, holds, machines } = await view();
  if (hot) await officer(200, "POST", "/cold", { hot: hot.id });
  if (holds.length > 0) await lift();
  for (const { id, state } of machines) if (state !== "safe") await change(id, "safe");
  const { out } = await judge(200, "GET", "/tags");
  for (const { id } of out) await judge(200, "POST", `/tags/${id}/in`);
});

test("one turn: what stands in the way goes sentence by sentence, then hot, fired, cold, made safe", async () => {
  const { mode, firing, posts: said } = await view(heron);
  expect(mode).toBe("cold");
  expect(said.map(({ name, state }) => [name, state])).toEqual([
    ["Post north", "not-clear"],
    ["Post south", "not-clear"],
  ]);
  expect(firing?.inTheWay).toEqual([
    "Machine 1 is made safe: its crew’s chief enters armed when it is.",
    "Post north has not said clear: call the post.",
    "Post south has not said clear: call the post.",
    "Stand-clear list: tick Firing point 1, Machine 2 when it is clear.",
  ]);
  const { machineId } = { machineId: heron };
  const refused = await officer(409, "POST", "/hot", { machineId, turn: (await view()).turn });
  expect(refused.because).toEqual(firing?.inTheWay);
  const hot = await makeHot();
  expect(hot).toMatchObject({ mode: "hot", hot: { machineName: "Machine 1" } });
  // The neighbour on the same firing point stands in the live zone.
  expect((await change(onion, "raising", 409)).because[0]).toContain("The range is hot for Machine 1");
  await change(heron, "fired");
  expect(await officer(200, "POST", "/cold", { hot: hot.hot?.id })).toMatchObject({
    mode: "live",
    hot: null,
  });
  expect((await change(heron, "safe")).mode).toBe("cold");
});

test("without a permit that stands nothing makes it hot, and a permit that falls ends hot", async () => {
  await fair.lay("POST", "/firing-order", { rules: { startAt: new Date().toISOString() } });
  const permitted = async (): Promise<Record<string, boolean | null>> => {
    const { turns } = await expecting(200, "GET", `${fair.base}/firing-order`);
    return Object.fromEntries(turns.map((turn: TurnInfo) => [turn.machineId, turn.permitted]).reverse());
  };
  expect(await permitted()).toEqual({ [heron]: true, [onion]: true });
  const hot = await makeHot();
  // What is armed stays where its zone is drawn, and on the list of those who can make it safe.
  const moved = { firingPointId: fair.firingPointId, bearing: 97 };
  for (const place of [moved, { firingPointId: null, bearing: null }]) {
    const refused = await fair.as("organiser")(409, "PATCH", `/machines/${heron}/placement`, place);
    expect(refused.code).toBe("not-made-safe");
  }
  const shifted = await expecting(409, "PATCH", `${fair.base}/firing-points/${fair.firingPointId}`, {
    as: fair.tokens.organiser,
    body: { latitude: 44.2001 },
  });
  expect(shifted.code).toBe("not-made-safe");
  const permits = await fair.db.permit.findMany({
    where: { machineId: heron },
    orderBy: { sequence: "desc" },
  });
  const reason = "A loose wedge";
  await fair.as("safety-officer")(201, "POST", `/permits/${permits[0]?.id}/withdrawal`, { reason });
  await expect.poll(async () => (await view()).mode, { timeout: 5000 }).toBe("hold");
  const { holds, turn } = await view();
  expect(holds[0]).toMatchObject({ by: null });
  expect(hot.turn).toBeLessThan(turn);
  await lift();
  const { firing } = await view(heron);
  expect(
    firing?.inTheWay.some((sentence) => sentence.startsWith("No firing permit of Machine 1 stands: ")),
  ).toBe(true);
  await change(heron, "safe");
  await permit(fair, heron);
  await fair.lay("PATCH", `/machines/${heron}/placement`, moved);
  await fair.lay("PATCH", `/machines/${heron}/placement`, { ...moved, bearing: 90 });
  // The order says so before it is called.
  expect(await permitted()).toEqual({ [heron]: false, [onion]: true });
  // Turned back it takes another signature.
  expect((await view(heron)).firing?.inTheWay.join()).toContain("No firing permit");
  await allSheets(fair.db, fair.contestId);
  await permit(fair, heron);
  expect((await view(heron)).firing?.inTheWay.join()).not.toContain("permit");
});

test("a hold by any official stops a hot range; only what was seen is lifted; one that comes late is written down", async () => {
  await makeHot();
  const key = "a hold pressed at the line";
  const press = (body: object = {}, as = fair.tokens.judge) =>
    expecting(201, "POST", `${fair.base}/range/hold`, { as, body, key: key.replaceAll(" ", "-") });
  expect(await press()).toMatchObject({ done: "applied", stored: true });
  expect(await view()).toMatchObject({ mode: "hold", hot: null, holds: [{ by: "Judge 1" }] });
  const [first] = (await view()).holds;
  await judge(201, "POST", "/hold");
  expect((await officer(409, "POST", "/lift", { holds: [first?.id] })).detail).toContain(
    "Another hold has come",
  );
  await lift();
  // The same one again, from a phone that had no answer: it is not applied again.
  await press({ pressedAgo: 3000 });
  expect((await view()).mode).toBe("live");
  expect(await judge(201, "POST", "/hold", { pressedAgo: 90_000 })).toMatchObject({
    done: "late",
    stored: true,
  });
  expect((await view()).mode).toBe("live");
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=5`);
  expect(entries[0].act).toBe("hold-late");
});

test("the tally refuses while a machine is not made safe, holds when somebody is out all the same, and keeps names to itself", async () => {
  await change(onion, "raising");
  expect((await judge(409, "POST", "/tags", { name: "Robin Example" })).because).toEqual([
    "Machine 2 is raising, not made safe.",
  ]);
  expect(await judge(201, "POST", "/tags", { name: "Robin Example", already: true })).toMatchObject({
    mode: "hold",
  });
  await lift();
  expect((await view(onion)).firing?.inTheWay).toContain("One tag is out: tag everybody in at the line.");
  const { out } = await judge(200, "GET", "/tags");
  expect(out).toMatchObject([{ name: "Robin Example", inAt: null }]);
  await judge(200, "POST", `/tags/${out[0].id}/in`);
  // A sheet that was kept on paper: with its times, and no hold, since they are back.
  const outAt = new Date(Date.now() - 3600_000).toISOString();
  const inAt = new Date(Date.now() - 3000_000).toISOString();
  const sheet = { name: "Kim Example", outAt, inAt, witness: "Line post" };
  expect(await judge(201, "POST", "/tags/paper", sheet)).toMatchObject({ outAt, inAt, witness: "Line post" });
  expect((await judge(422, "POST", "/tags/paper", { ...sheet, inAt: outAt, outAt: inAt })).detail).toContain(
    "They came back after they went out",
  );
  expect(await officer(200, "POST", "/tags/erase")).toEqual({ erased: 2 });
  expect((await judge(200, "GET", "/tags")).back[0]).toMatchObject({ name: null });
  const bodies = await fair.db.scorebookEntry.findMany({ select: { body: true } });
  expect(bodies.some(({ body }) => /Robin|Kim/.test(body))).toBe(false);
  expect(JSON.stringify(await view())).not.toContain("Robin");
  await judge(422, "POST", "/tags", {});
});

test("a misfire waits, one person is named and is out, then it is made safe", async () => {
  await officer(200, "PUT", "/times", {
    times: { silence: 30, clearLasts: 600, misfireWait: 60 },
    reason: "By the maker's paper",
  });
  await makeHot();
  await change(heron, "misfired");
  await officer(200, "POST", "/cold", { hot: (await view()).hot?.id });
  const name = { name: "Sam Example", step: (await view()).machines.find(({ id }) => id === heron)?.step };
  expect((await officer(409, "POST", `/machines/${heron}/approach`, name)).because[0]).toContain(
    "another 1 min",
  );
  expect((await change(heron, "safe", 409)).because[0]).toContain("another 1 min");
  // A minute later.
  const row = await fair.db.rangeState.findUniqueOrThrow({ where: { contestId: fair.contestId } });
  const state = JSON.parse(row.body);
  state.machines[heron].since -= 61_000;
  await fair.db.rangeState.update({
    where: { contestId: fair.contestId },
    data: { body: JSON.stringify(state) },
  });
  expect((await change(heron, "safe", 409)).because[0]).toContain("first names the one person");
  await officer(201, "POST", `/machines/${heron}/approach`, name);
  expect((await judge(200, "GET", "/tags")).out).toMatchObject([
    { name: "Sam Example", machineName: "Machine 1" },
  ]);
  expect((await change(heron, "safe")).mode).toBe("cold");
});

test("a lease and a post that are not heard lapse, those that are heard stand", async () => {
  await officer(200, "PUT", "/times", {
    times: { silence: 6, clearLasts: 600, misfireWait: 60 },
    reason: "Quick phones",
  });
  const { hot } = await makeHot();
  const beats = { hot: hot?.id, post: { id: posts[0], phone: PHONE } };
  expect(await officer(200, "POST", "/beats", beats)).toMatchObject({ mode: "hot" });
  // What was heard last, six seconds ago and more, as after a restart.
  const ranges = (globalThis as unknown as { fairthrowRanges: Map<string, { beats: Map<string, number> }> })
    .fairthrowRanges;
  const row = await fair.db.rangeState.findUniqueOrThrow({ where: { contestId: fair.contestId } });
  const state = JSON.parse(row.body);
  state.hot.heardAt -= 7000;
  await fair.db.rangeState.update({
    where: { contestId: fair.contestId },
    data: { body: JSON.stringify(state) },
  });
  expect((await view()).mode).toBe("hot");
  ranges.get(fair.contestId)?.beats.clear();
  expect((await view()).mode).toBe("hold");
  expect(await officer(200, "POST", "/beats", beats)).toMatchObject({
    mode: "hold",
    holds: [{ by: null, why: "The page that held the range hot has lost the server." }],
  });
});

/** What an open page hears of the range, as it comes. */
async function openPage() {
  const leave = new AbortController();
  const response = await send("GET", `${fair.base}/live?after=999999`, { signal: leave.signal });
  const heard: RangeBrief[] = [];
  const text = new TextDecoder();
  void (async () => {
    for await (const chunk of response.body as unknown as AsyncIterable<Uint8Array>)
      for (const [, data] of text.decode(chunk).matchAll(/^event: range\ndata: (.*)$/gm))
        heard.push(JSON.parse(data as string));
  })().catch(() => {});
  await expect.poll(() => heard.length).toBeGreaterThan(0);
  return { heard, leave: () => leave.abort() };
}

/** No row fits any more: SQLite by its own limit, PostgreSQL by the error that it gives then. Answers how to end it. */
async function fillDisk(): Promise<() => Promise<unknown>> {
  const run = (sql: string) => fair.db.$queryRawUnsafe<Answer>(sql);
  if (engine === "sqlite") {
    const [{ page_count: count }] = await run("PRAGMA page_count");
    await run(`PRAGMA max_page_count = ${count}`);
    return () => run("PRAGMA max_page_count = 100000");
  }
  // Class 53, insufficient resources: disk_full, in PostgreSQL's table of error codes (appendix A of its manual).
  await run(`CREATE FUNCTION no_room() RETURNS trigger LANGUAGE plpgsql AS
    $$ BEGIN RAISE EXCEPTION 'could not extend file: No space left on device' USING ERRCODE = '53100'; END $$`);
  await run(
    `CREATE TRIGGER no_room BEFORE INSERT ON "ScorebookEntry" FOR EACH ROW EXECUTE FUNCTION no_room()`,
  );
  return () => run(`DROP TRIGGER no_room ON "ScorebookEntry"`);
}

test("a hold reaches every open page before it is stored, with the disk full too; it is lifted only once it is stored", async () => {
  const pages = await Promise.all(Array.from({ length: 5 }, openPage));
  expect(pages.every(({ heard }) => heard.at(-1)?.mode === "cold")).toBe(true);
  const emptied = await fillDisk();
  // One hold after the other, until the last free bytes are gone.
  let presses = 0;
  const press = () =>
    send("POST", `${fair.base}/range/hold`, { as: fair.tokens.judge, key: `with-the-disk-full-${presses}` });
  let answer: Answer;
  do {
    presses++;
    answer = await (await press()).json();
    expect(answer.done).toBe("applied");
  } while (answer.stored && presses < 200);
  expect(answer.stored).toBe(false);
  for (const { heard } of pages) {
    expect(heard.at(-1)?.holds).toHaveLength(presses);
    expect(heard.at(-1)).toMatchObject({ mode: "hold", hot: null });
  }
  expect((await view()).holds).toHaveLength(presses);
  const holds = (await view()).holds.map(({ id }) => id);
  await officer(409, "POST", "/lift", { holds });
  await emptied();
  expect(await (await press()).json()).toMatchObject({ stored: true });
  await lift();
  await expect.poll(() => pages.every(({ heard }) => heard.at(-1)?.mode === "cold")).toBe(true);
  for (const { leave } of pages) leave();
  await closeLive();
  expect(await verifyScorebook(fair.db, fair.slug)).toMatchObject({ holds: true });
});

test("a team's own chief enters what its machine does", async () => {
  await fair.as("team")(200, "PUT", `/range/machines/${heron}`, {
    to: "raising",
    step: (await view()).machines.find(({ id }) => id === heron)?.step,
  });
});
