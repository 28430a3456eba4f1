/** The entries on a judge's phone: what closes, refuses or goes dead in between loses and doubles nothing. */
import "fake-indexeddb/auto";
import { afterEach, beforeEach, describe, expect, it, vi } from "vitest";
import { clockAhead, hearClock } from "@/app/_ui/offline/clock";
import type { KeptEntry, KeptWrite } from "@/app/_ui/offline/database";
import { Outbox } from "@/app/contests/[contest]/judge/outbox";
import type { FixAnswer, Problem } from "@/lib/api/contracts";

const SLUG = "harvest";
let made = 0;
const entry = (part: Partial<KeptEntry> = {}): KeptEntry => ({
  key: `key-of-entry-${++made}`,
  slug: SLUG,
  owner: "badge-1",
  url: "/api/v1/fixes",
  body: { fix: { outcome: "foul" } },
  shotId: `shot-${made}`,
  title: `Shot ${made}`,
  result: "foul",
  madeAt: new Date(Date.UTC(2026, 9, 3, 10, 0, made)).toISOString(),
  tried: false,
  refused: null,
  ...part,
});

const refusal = (status: number): Problem => ({
  type: "about:blank",
  title: "Not done",
  status,
  detail: "This shot has moved.",
  code: "moved",
});

/** A server that remembers keys as the real one does, and may be out of reach, cut off after its work, or refuse. */
function server() {
  const taken = new Map<string, string>();
  const state = { up: true, answers: true, refuses: null as Problem | null };
  const sender = async ({ key, shotId }: KeptWrite) => {
    if (!state.up) return { ok: false, reached: false } as const;
    if (state.refuses) {
      const settled = state.refuses.status < 500 && state.refuses.status !== 401;
      return { ok: false, reached: true, settled, problem: state.refuses } as const;
    }
    taken.set(key, shotId);
    if (!state.answers) return { ok: false, reached: false } as const;
    return { ok: true, data: { id: key } as FixAnswer } as const;
  };
  return { taken, state, sender };
}

const phones: Outbox[] = [];
async function phone(sender: ReturnType<typeof server>["sender"], owner = "badge-1") {
  const saved: string[] = [];
  const outbox = new Outbox(SLUG, owner, { fix: ({ key }) => saved.push(key) }, sender);
  phones.push(outbox);
  await outbox.open();
  return { outbox, saved, keys: () => outbox.snapshot().entries.map(({ key }) => key) };
}

beforeEach(() => {
  const kept = new Map<string, string>();
  vi.stubGlobal("localStorage", {
    getItem: (name: string) => kept.get(name) ?? null,
    setItem: (name: string, value: string) => kept.set(name, value),
    removeItem: (name: string) => kept.delete(name),
  });
});
afterEach(async () => {
  for (const outbox of phones.splice(0)) {
    outbox.close();
    for (const { key } of outbox.snapshot().entries) await outbox.drop(key);
  }
  vi.unstubAllGlobals();
});

describe("entries on the phone", () => {
  it("outlive the page, go out in their order, and are struck out when the server has them", async () => {
    const { taken, state, sender } = server();
    state.up = false;
    const before = await phone(sender);
    const kept = [entry(), entry(), entry()];
    for (const one of kept) {
      expect(await before.outbox.keep(one)).toBe(true);
      await before.outbox.dispatch(one.key);
    }
    before.outbox.close();
    const after = await phone(sender);
    expect(after.keys()).toEqual(kept.map(({ key }) => key));
    state.up = true;
    await after.outbox.flush();
    expect([...taken.keys()]).toEqual(kept.map(({ key }) => key));
    expect(after.saved).toEqual(kept.map(({ key }) => key));
    expect((await phone(sender)).keys()).toEqual([]);
  });

  it("go again under the same key when the answer was lost", async () => {
    const { taken, state, sender } = server();
    const { outbox, keys } = await phone(sender);
    const one = entry();
    state.answers = false;
    await outbox.keep(one);
    await outbox.dispatch(one.key);
    expect(outbox.snapshot().entries[0]?.tried).toBe(true);
    outbox.close();
    state.answers = true;
    const again = await phone(sender);
    expect(again.saved).toEqual([one.key]);
    expect([...taken.keys()]).toEqual([one.key]);
    expect(keys()).toEqual([one.key]);
  });

  it("stay with the reason when they are refused, and leave only when a person says so", async () => {
    const { taken, state, sender } = server();
    const { outbox } = await phone(sender);
    const one = entry();
    state.refuses = refusal(409);
    await outbox.keep(one);
    await outbox.dispatch(one.key);
    state.refuses = null;
    outbox.close();
    const later = await phone(sender);
    expect(later.outbox.snapshot().entries[0]?.refused?.detail).toBe("This shot has moved.");
    expect(taken.size).toBe(0);
    await later.outbox.drop(one.key);
    expect((await phone(sender)).keys()).toEqual([]);
  });

  it("are not held up by one that was refused, and wait where the sign-in ended", async () => {
    const { taken, state, sender } = server();
    const { outbox, keys } = await phone(sender);
    const [bad, good] = [entry(), entry()];
    state.refuses = refusal(409);
    await outbox.keep(bad);
    await outbox.dispatch(bad.key);
    state.refuses = refusal(401);
    await outbox.keep(good);
    await outbox.flush();
    state.refuses = null;
    await outbox.flush();
    expect([...taken.keys()]).toEqual([good.key]);
    expect(keys()).toEqual([bad.key]);
  });

  it("become another badge's own only when its judge says so, under a new key", async () => {
    const { taken, state, sender } = server();
    state.up = false;
    const before = await phone(sender);
    const one = entry();
    await before.outbox.keep(one);
    before.outbox.close();
    state.up = true;
    const { outbox, saved, keys } = await phone(sender, "badge-2");
    expect(keys()).toEqual([one.key]);
    expect(taken.size).toBe(0);
    await outbox.takeOver(one);
    expect([...taken.values()]).toEqual([one.shotId]);
    expect(taken.has(one.key)).toBe(false);
    expect(saved).toEqual([...taken.keys()]);
    outbox.close();
    expect((await phone(sender)).keys()).toEqual([]);
  });

  it("never go out under another's badge, where their key would count anew", async () => {
    const { taken, state, sender } = server();
    state.up = false;
    const { outbox } = await phone(sender);
    const one = entry();
    await outbox.keep(one);
    outbox.close();
    state.up = true;
    const other = await phone(sender, "badge-2");
    expect(other.keys()).toEqual([one.key]);
    expect(taken.size).toBe(0);
    await phone(sender);
    expect(taken.size).toBe(1);
  });

  it("of the last version are taken over from where it kept them", async () => {
    const { taken, state, sender } = server();
    state.up = false;
    const { slug: _, owner: __, tried: ___, ...old } = entry();
    localStorage.setItem(`fairthrow:entries:${SLUG}`, JSON.stringify([old]));
    const { outbox, keys } = await phone(sender);
    expect(keys()).toEqual([old.key]);
    expect(localStorage.getItem(`fairthrow:entries:${SLUG}`)).toBeNull();
    outbox.close();
    state.up = true;
    await phone(sender);
    expect([...taken.keys()]).toEqual([old.key]);
  });

  it("and sightings go out from whichever page is open, each answer to its own kind", async () => {
    const { taken, state, sender } = server();
    state.up = false;
    const spotter = await phone(sender);
    const { body: _, ...rest } = entry();
    const body = { from: "oak", bearing: 135, north: "true", uncertainty: 2, way: "dial" } as const;
    const sighting: KeptWrite = { ...rest, kind: "sighting", body };
    await spotter.outbox.keep(sighting);
    spotter.outbox.close();
    state.up = true;
    const judge = await phone(sender);
    expect([...taken.keys()]).toEqual([sighting.key]);
    expect(judge.keys()).toEqual([]);
    // The judge's page is not told that an entry was saved.
    expect(judge.saved).toEqual([]);
    const seen: string[] = [];
    const other = new Outbox(SLUG, "badge-1", { sighting: ({ key }) => seen.push(key) }, sender);
    phones.push(other);
    await other.keep({ ...sighting, key: "another-key-of-it" });
    await other.dispatch("another-key-of-it");
    expect(seen).toEqual(["another-key-of-it"]);
    // An incident is neither, and goes out all the same.
    const told: string[] = [];
    const incident: KeptWrite = {
      ...rest,
      key: "key-of-an-incident",
      kind: "incident",
      body: { machineId: "heron", part: "unknown", hurt: "unknown" },
    };
    const third = new Outbox(SLUG, "badge-1", { incident: ({ key }) => told.push(key) }, sender);
    phones.push(third);
    await third.keep(incident);
    await third.dispatch(incident.key);
    expect([told, seen]).toEqual([[incident.key], ["another-key-of-it"]]);
    // What another badge left is sent as the own one's, as an entry is.
    await other.keep({ ...sighting, key: "left-behind-by-another", owner: "badge-2" });
    const [left] = other.snapshot().entries;
    await other.takeOver(left as KeptWrite);
    expect(seen).toHaveLength(2);
    expect(taken.has("left-behind-by-another")).toBe(false);
    expect(other.snapshot().entries).toEqual([]);
  });

  it("are sent by this page alone where the phone stores nothing, and it says so", async () => {
    const { taken, sender } = server();
    const { outbox } = await phone(sender);
    const put = vi.spyOn(IDBObjectStore.prototype, "put").mockImplementation(() => {
      throw new DOMException("full", "QuotaExceededError");
    });
    const one = entry();
    expect(await outbox.keep(one)).toBe(false);
    expect(outbox.snapshot().stored).toBe(false);
    await outbox.dispatch(one.key);
    put.mockRestore();
    expect([...taken.keys()]).toEqual([one.key]);
  });
});

it("takes the server's clock from its answers, and none from an answer that took too long", () => {
  const asked = Date.UTC(2026, 9, 3, 10, 0, 0);
  // The phone is ten minutes behind; the header cuts off the second.
  hearClock("Sat, 03 Oct 2026 10:10:00 GMT", asked, asked + 200);
  expect(clockAhead()).toBe(600_400);
  hearClock("Sat, 03 Oct 2026 12:00:00 GMT", asked, asked + 30_000);
  hearClock(null, asked, asked + 10);
  expect(clockAhead()).toBe(600_400);
});
