/** Judges' entries over HTTP in the same moment, on a server that answers slowly: turns, what gives way, and what is stuck. */
import { once } from "node:events";
import { createServer, type IncomingMessage, request, type ServerResponse } from "node:http";
import type { AddressInfo } from "node:net";
import { text } from "node:stream/consumers";
import { setTimeout as wait } from "node:timers/promises";
import { afterEach, expect, it } from "vitest";
import { afterSaves, savesFirst } from "@/lib/live";

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

/** A server that answers once the body is there and `work` ms are over; what it answered, and how many it had begun by then. */
async function serve(work: number) {
  const done: string[] = [];
  const begun: number[] = [];
  let count = 0;
  const answerTo = async (asked: IncomingMessage, answer: ServerResponse) => {
    count++;
    const name = await text(asked);
    if (work > 0) await wait(work);
    done.push(name);
    begun.push(count);
    answer.end(name);
  };
  const server = createServer(
    // Broken off is broken off.
    savesFirst((asked, answer) => void answerTo(asked, answer).catch(() => {})),
  ).listen(0, "127.0.0.1");
  await once(server, "listening");
  closing.push(() => {
    server.closeAllConnections();
    server.close();
  });
  const { port } = server.address() as AddressInfo;
  const send = (path: string) =>
    request({ port, path: `/api/v1/contests/fair/${path}`, method: "POST", agent: false });
  const post = async (path: string, body: string) => {
    const sent = send(path).end(body);
    const [answer] = await once(sent, "response");
    answer.resume();
  };
  return { done, begun, started: () => count, send, post };
}

const SAVE = "shots/one/fixes";

it("entries of one moment are answered one after another, and a page reads anew when none is under way", async () => {
  const { done, begun, started, post } = await serve(4);
  const names = Array.from({ length: 10 }, (_, index) => `entry ${index}`);
  const answers = names.map((name) => post(SAVE, name));
  await expect.poll(() => done.length, { interval: 1 }).toBeGreaterThan(0);
  const underWay = afterSaves().then(() => started() - done.length);
  await Promise.all(answers);
  expect([...done].sort()).toEqual([...names].sort());
  // Mixed, all ten would have begun before the first answer. A busy machine may let one begin before its turn.
  expect(begun.filter((count, index) => count > index + 1).length).toBeLessThan(4);
  expect(await underWay).toBe(0);
  await afterSaves();
});

it("an entry whose rest is stuck in a bad network holds up the others for a moment only, and other requests not at all", async () => {
  const { done, send, post } = await serve(0);
  const stuck = send(SAVE);
  stuck.on("error", () => {});
  stuck.write("half of ");
  await wait(5);
  await post("rulings", "a ruling");
  expect(done).toEqual(["a ruling"]);
  await post(SAVE, "behind it");
  expect(done).toEqual(["a ruling", "behind it"]);
  stuck.end("it");
  await expect.poll(() => done.at(-1)).toBe("half of it");
  await afterSaves();
});

it("many entries stuck at once hold up another for one moment, and whoever left while waiting for none", async () => {
  const { done, send, post } = await serve(0);
  const stuck = Array.from({ length: 20 }, () => send(SAVE).on("error", () => {}));
  for (const each of stuck) each.write("half");
  await wait(10);
  const before = performance.now();
  await post(SAVE, "behind them");
  // Each in its turn they would take a second.
  expect(performance.now() - before).toBeLessThan(500);
  for (const each of stuck) each.destroy();
  await afterSaves();
  expect(performance.now() - before).toBeLessThan(500);
  expect(done).toEqual(["behind them"]);
});

it("an entry that is broken off gives its turn on", async () => {
  const { done, send, post } = await serve(0);
  const broken = send(SAVE);
  broken.on("error", () => {});
  broken.write("half");
  await wait(5);
  broken.destroy();
  await post(SAVE, "next");
  expect(done).toEqual(["next"]);
});

it("a hold waits for no entry, and none begins beside it", async () => {
  const { done, post } = await serve(20);
  const answers = Array.from({ length: 8 }, (_, index) => post(SAVE, `entry ${index}`));
  await expect.poll(() => done.length, { interval: 1 }).toBeGreaterThan(0);
  const before = done.length;
  await post("range/hold", "hold");
  // At most the entry whose turn was on, and one that a busy machine let in.
  expect(done.indexOf("hold")).toBeLessThanOrEqual(before + 2);
  await Promise.all(answers);
  expect(done).toHaveLength(9);
});
