/** The live feed: an open page hears of a save within a second, and misses nothing when it comes back. */
import { createServer } from "node:http";
import type { AddressInfo } from "node:net";
import { Readable } from "node:stream";
import { afterEach, beforeAll, expect, test } from "vitest";
import { liveChangeSchema } from "@/lib/api/contracts";
import { allSheets } from "@/lib/contest";
import { closeLive } from "@/lib/live";
import { type Answer, bearingFix, declaration, expecting, type Fair, newFair, send } from "./fair";

let fair: Fair;
let shots: Answer[];

beforeAll(async () => {
  fair = await newFair(4);
  shots = (await fair.lay("POST", "/rounds", {})).shots;
  await allSheets(fair.db, fair.contestId);
});

interface Heard {
  event: string;
  id: number | null;
  data: Answer;
}

const stopping: (() => void)[] = [];
afterEach(() => {
  for (const stop of stopping.splice(0)) stop();
});

/** Reads a stream of events, as HTML's "Server-sent events" section defines their form. */
function listenTo(body: ReadableStream<Uint8Array>): { heard: Heard[]; ended: Promise<void> } {
  const heard: Heard[] = [];
  const read = async () => {
    const decoder = new TextDecoder();
    let text = "";
    for await (const chunk of body as unknown as AsyncIterable<Uint8Array>) {
      text += decoder.decode(chunk, { stream: true });
      for (let end = text.indexOf("\n\n"); end >= 0; end = text.indexOf("\n\n")) {
        const fields = Object.fromEntries(
          text
            .slice(0, end)
            .split("\n")
            .map((line) => [line.slice(0, line.indexOf(":")), line.slice(line.indexOf(":") + 2)]),
        );
        text = text.slice(end + 2);
        if (!fields.data) continue;
        const id = fields.id ? Number(fields.id) : null;
        heard.push({ event: fields.event, id, data: JSON.parse(fields.data) });
      }
    }
  };
  return { heard, ended: read().catch(() => {}) };
}

async function openFeed(headers: Record<string, string> = {}, query = "") {
  const leave = new AbortController();
  stopping.push(() => leave.abort());
  const response = await send("GET", `${fair.base}/live${query}`, { headers, signal: leave.signal });
  expect(response.status).toBe(200);
  expect(response.headers.get("content-type")).toMatch(/^text\/event-stream/);
  expect(response.headers.get("cache-control")).toContain("no-transform");
  return { ...listenTo(response.body as ReadableStream<Uint8Array>), leave: () => leave.abort() };
}

const changes = (heard: Heard[]) => heard.filter((each) => each.event === "change");
const sequence = async () => (await expecting(200, "GET", fair.base)).sequence as number;
const record = (shot: Answer, distance: number) =>
  expecting(201, "POST", `${fair.base}/shots/${shot.id}/fixes`, {
    as: fair.tokens.judge,
    body: { fix: bearingFix(distance) },
  });

test("every open page hears of a save, with the new standings", async () => {
  const now = await sequence();
  const feeds = await Promise.all(Array.from({ length: 50 }, () => openFeed({}, `?after=${now}`)));
  await expect
    .poll(() => feeds.every((feed) => feed.heard.some((each) => each.event === "heartbeat")))
    .toBe(true);
  expect(feeds.flatMap((feed) => changes(feed.heard))).toEqual([]);
  const fix = await record(shots[0], 61.5);
  await expect
    .poll(() => feeds.every((feed) => changes(feed.heard).length === 1), { interval: 10 })
    .toBe(true);
  for (const feed of feeds) {
    const [change] = changes(feed.heard) as [Heard];
    expect(change.id).toBe(now + 1);
    expect(liveChangeSchema.parse(change.data)).toEqual(change.data);
    expect(change.data).toMatchObject({ kind: "fix", subjectId: fix.id, sequence: now + 1 });
    expect(change.data.standings.overall[0]).toMatchObject({ entrantId: shots[0].entrantId, best: 61.5 });
  }
});

test("a page that comes back is told at once what it missed, by Last-Event-ID", async () => {
  const now = await sequence();
  await record(shots[1], 64);
  const back = await openFeed({ "last-event-id": String(now) });
  await expect.poll(() => changes(back.heard).length).toBe(1);
  const [change] = changes(back.heard) as [Heard];
  expect(change.id).toBe(now + 1);
  expect(change.data.standings.overall[0].best).toBe(64);

  const upToDate = await openFeed({ "last-event-id": String(now + 1) });
  await expect.poll(() => upToDate.heard.length).toBeGreaterThan(0);
  expect(changes(upToDate.heard)).toEqual([]);
});

test("a page that knows nothing yet gets the standings with the first event, whatever that was about", async () => {
  await fair.lay("POST", "/badges", { role: "judge", label: "Judge 2" });
  const feed = await openFeed();
  await expect.poll(() => changes(feed.heard).length).toBe(1);
  expect((changes(feed.heard)[0] as Heard).data).toMatchObject({ kind: "badge", standings: { rounds: [1] } });
});

test("a new sheet is told when it is there", async () => {
  const now = await sequence();
  const feed = await openFeed({}, `?after=${now}`);
  await fair.lay("POST", `/machines/${fair.machineIds[0]}/revisions`, { declaration: declaration(26) });
  await expect
    .poll(() => changes(feed.heard).map((each) => each.data.kind), { timeout: 20_000 })
    .toEqual(["machine", "sheet"]);
});

test("a refused write is not told", async () => {
  const feed = await openFeed({}, `?after=${await sequence()}`);
  await fair.as("judge")(403, "POST", "/divisions", { name: "Sly" });
  await fair.lay("POST", "/divisions", { name: "Proper" });
  await expect.poll(() => changes(feed.heard).length).toBe(1);
});

test("heartbeats go on, so that a page can show when the server was last heard", {
  timeout: 15_000,
}, async () => {
  const feed = await openFeed();
  const beats = () => feed.heard.filter((each) => each.event === "heartbeat").length;
  await expect.poll(beats, { timeout: 12_000 }).toBeGreaterThanOrEqual(2);
});

test("over a real connection: an event arrives while the answer stays open, and stopping ends it", async () => {
  const server = createServer(async (request, response) => {
    const answer = await send("GET", `${fair.base}/live`, {});
    response.writeHead(answer.status, Object.fromEntries(answer.headers));
    Readable.fromWeb(answer.body as never).pipe(response);
    request.on("error", () => {});
  });
  await new Promise<void>((resolve) => server.listen(0, "127.0.0.1", resolve));
  const { port } = server.address() as AddressInfo;
  const response = await fetch(`http://127.0.0.1:${port}/`);
  const { heard, ended } = listenTo(response.body as ReadableStream<Uint8Array>);
  await expect.poll(() => changes(heard).length).toBe(1);
  await record(shots[2], 59);
  await expect.poll(() => changes(heard).length).toBe(2);
  await closeLive();
  await ended;
  await new Promise((resolve) => server.close(resolve));
});

test("a contest that is not there has no feed", async () => {
  expect((await expecting(404, "GET", "/contests/nowhere/live")).code).toBe("not-found");
});
