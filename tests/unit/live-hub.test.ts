/** The live feed's hub, on a source that counts its readings: many pages and many changes cost few of them. */
import { afterEach, expect, it } from "vitest";
import { type LiveEvent, LiveHub, type Source } from "@/lib/live/hub";

/** What the database announces with. */
const announce = (sequence: number) => {
  const { fairthrowNotices } = globalThis as unknown as {
    fairthrowNotices: { emit: (name: string, notice: object) => void };
  };
  fairthrowNotices.emit("notice", { contestId: "fair", sequence });
};

let last = 5;
const event = (sequence: number): LiveEvent => ({ sequence, data: `{"n":${sequence}}` });
const readings = { newest: 0, changes: 0 };
const source: Source = {
  range: async () => "{}",
  async newest() {
    readings.newest++;
    await new Promise((resolve) => setTimeout(resolve, 20));
    return event(last);
  },
  async changes(_, after) {
    readings.changes++;
    await new Promise((resolve) => setTimeout(resolve, 20));
    return Array.from({ length: last - after }, (_, index) => event(after + 1 + index));
  },
};

const closing: (() => unknown)[] = [];
afterEach(async () => {
  for (const close of closing.splice(0)) await close();
});

/** The sequences that a page hears, in their order. */
function open(hub: LiveHub, after: number): number[] {
  const ending = new AbortController();
  closing.push(() => ending.abort());
  const heard: number[] = [];
  const read = async () => {
    const text = new TextDecoder();
    for await (const chunk of hub.subscribe(
      "fair",
      after,
      ending.signal,
    ) as unknown as AsyncIterable<Uint8Array>)
      for (const [, id] of text.decode(chunk).matchAll(/^id: (\d+)$/gm)) heard.push(Number(id));
  };
  void read();
  return heard;
}

it("fifty pages that come at once, as after a restart, cost one reading; a burst of entries costs a few, and each is heard once", async () => {
  const hub = new LiveHub(source);
  closing.push(() => hub.close());
  const pages = Array.from({ length: 50 }, () => open(hub, 0));
  // One that has heard more than the others.
  const ahead = open(hub, 8);
  await expect.poll(() => pages.every((heard) => heard.length === 1)).toBe(true);
  expect(readings.newest).toBe(1);
  expect(ahead).toEqual([]);

  for (let save = 0; save < 40; save++) {
    announce(++last);
    await new Promise((resolve) => setTimeout(resolve, 10));
  }
  await expect.poll(() => pages.every((heard) => heard.at(-1) === 45), { timeout: 2000 }).toBe(true);
  const all = Array.from({ length: 41 }, (_, index) => 5 + index);
  for (const heard of pages) expect(heard).toEqual(all);
  expect(ahead).toEqual(all.filter((sequence) => sequence > 8));
  expect(readings.changes).toBeLessThan(5);
});

it("what the range is goes out while a reading hangs, and who comes later hears the newest at once", async () => {
  const hub = new LiveHub({
    ...source,
    newest: () => new Promise(() => {}),
    range: async () => `{"mode":"cold"}`,
  });
  closing.push(() => hub.close());
  const listen = () => {
    const ending = new AbortController();
    closing.push(() => ending.abort());
    const heard: string[] = [];
    void (async () => {
      const text = new TextDecoder();
      for await (const chunk of hub.subscribe(
        "fair",
        0,
        ending.signal,
      ) as unknown as AsyncIterable<Uint8Array>)
        for (const [, mode] of text.decode(chunk).matchAll(/^event: range\ndata: {"mode":"(\w+)"}$/gm))
          heard.push(mode as string);
    })();
    return heard;
  };
  const pages = [listen(), listen()];
  await expect.poll(() => pages).toEqual([["cold"], ["cold"]]);
  hub.tellRange("fair", `{"mode":"hold"}`);
  await expect
    .poll(() => pages)
    .toEqual([
      ["cold", "hold"],
      ["cold", "hold"],
    ]);
  const late = listen();
  await expect.poll(() => late).toEqual(["hold"]);
});
