/** What a browser keeps of the workbench: two tabs, a full storage, a text that cannot be read. The storage is a stand-in. */
import { beforeEach, describe, expect, it, vi } from "vitest";
import type { allAside, fates, keptText } from "@/app/_ui/kept-text";
import { carried, standingOf } from "@/app/workbench/before/checklist/findings";
import {
  emptyLog,
  type Log,
  logFromText,
  logToText,
  type Throw,
  withThrow,
} from "@/app/workbench/trials/log/log";
import { mergedLogs } from "@/app/workbench/trials/log/merge";
import { hazardRequestSchema, MACHINE_KINDS } from "@/lib/throw";

class Storage {
  readonly texts: Record<string, string> = {};
  full = false;
}
let storage: Storage;
let wake: Record<string, ((event: { key: string | null }) => void)[]>;

/** One tab: its own copy of the module over the same storage. */
async function tab(): Promise<{
  keptText: typeof keptText;
  fates: typeof fates;
  allAside: typeof allAside;
}> {
  vi.resetModules();
  return import("@/app/_ui/kept-text");
}

beforeEach(() => {
  storage = new Storage();
  wake = {};
  const { texts } = storage;
  const own = new Proxy(texts, {
    get: (_, name: string) =>
      ({
        getItem: (key: string) => texts[key] ?? null,
        removeItem: (key: string) => delete texts[key],
        setItem: (key: string, text: string) => {
          if (storage.full) throw new DOMException("full", "QuotaExceededError");
          texts[key] = text;
        },
      })[name],
  });
  vi.stubGlobal("localStorage", own);
  const listens = (name: string, hear: (event: { key: string | null }) => void) => {
    wake[name] = [...(wake[name] ?? []), hear];
  };
  vi.stubGlobal("addEventListener", listens);
  vi.stubGlobal("document", { addEventListener: listens });
});
const fire = (name: string, key: string | null = null) => {
  for (const hear of wake[name] ?? []) hear({ key });
};

describe("a tab that slept", () => {
  it("takes what another one wrote when it comes back, before it writes anything", async () => {
    const asleep = (await tab()).keptText("k");
    asleep.write("old");
    const heard: (string | null)[] = [];
    asleep.hear((text) => heard.push(text));
    const awake = (await tab()).keptText("k");
    awake.read();
    awake.write("new");
    fire("pageshow");
    expect(heard).toEqual(["new"]);
    expect(asleep.read()).toBe("new");
  });

  it("that has not heard writes over nothing: it asks", async () => {
    const { keptText, fates } = await tab();
    const asleep = keptText("k");
    expect(asleep.read()).toBeNull();
    storage.texts.k = "of another tab";
    expect(asleep.write("mine")).toBe("overtaken");
    expect(storage.texts.k).toBe("of another tab");
    expect([asleep.read(), fates()]).toEqual(["mine", "k overtaken"]);
    asleep.settle("here");
    expect([storage.texts.k, fates()]).toEqual(["mine", ""]);
  });
});

describe("a storage without room", () => {
  it("leaves the page its words, whatever another tab says, until somebody chooses", async () => {
    const { keptText } = await tab();
    const text = keptText("k");
    text.write("kept");
    const heard: (string | null)[] = [];
    text.hear((now) => heard.push(now));
    storage.full = true;
    expect(text.write("typed")).toBe("refused");
    storage.texts.k = "of another tab";
    fire("storage", "k");
    expect([text.fate, text.read(), heard]).toEqual(["overtaken", "typed", []]);
    storage.full = false;
    text.settle("there");
    expect([text.fate, text.read(), heard]).toEqual(["kept", "of another tab", ["of another tab"]]);
  });

  it("is tried again when the page comes back", async () => {
    const { keptText } = await tab();
    const text = keptText("k");
    text.hear(() => {});
    storage.full = true;
    text.write("typed");
    storage.full = false;
    fire("visibilitychange");
    expect([text.fate, storage.texts.k]).toEqual(["kept", "typed"]);
  });
});

describe("a text that cannot be read", () => {
  it("is put aside under names that overwrite no earlier one", async () => {
    const { keptText, allAside } = await tab();
    const text = keptText("k");
    storage.texts.k = "{broken";
    expect(text.setAside()).toBe(true);
    text.write("new");
    storage.texts.k = "{broken again";
    expect(text.setAside()).toBe(true);
    expect([storage.texts["k-set-aside"], storage.texts["k-set-aside-2"]]).toEqual([
      "{broken",
      "{broken again",
    ]);
    expect(allAside().map(({ of }) => of)).toEqual(["k", "k"]);
  });

  it("stays where it is when there is no room, and is not written over", async () => {
    const { keptText } = await tab();
    const text = keptText("k");
    storage.texts.k = "{broken";
    storage.full = true;
    expect(text.setAside()).toBe(false);
    storage.full = false;
    expect(text.write("new")).toBe("held");
    expect([storage.texts.k, text.read()]).toEqual(["{broken", "new"]);
  });
});

describe("throws of two tabs", () => {
  const kind = MACHINE_KINDS[0];
  const request = hazardRequestSchema.parse({ machine: kind?.example, projectile: kind?.exampleProjectile });
  const thrown = (id: string, at: string): Omit<Throw, "machine"> => ({
    ...{ id, at, settings: {}, wind: null, mass: null, result: "landed" as const },
    ...{ distance: 80, aside: null, uncertainty: null, note: "", pieces: [], film: null },
  });
  const add = (log: Log, id: string, at: string) =>
    withThrow(log, thrown(id, at), { name: "A", request }, `machine of ${id}`);
  const base = add(add(emptyLog, "a", "2031-05-03T14:00"), "b", "2031-05-03T14:05");
  const both = (own: Log, other: Log) =>
    logFromText(mergedLogs(logToText(own), logToText(other), logToText(base))) as Log;

  it("are all there, in order", () => {
    const { throws } = both(add(base, "c", "2031-05-03T14:20"), add(base, "d", "2031-05-03T14:10"));
    expect(throws.map(({ id }) => id)).toEqual(["a", "b", "d", "c"]);
  });

  it("less what either took out, and as either corrected them", () => {
    const less = { ...base, throws: base.throws.filter(({ id }) => id !== "a") };
    const corrected = {
      ...base,
      throws: base.throws.map((each) => (each.id === "b" ? { ...each, distance: 90 } : each)),
    };
    expect(both(less, corrected).throws.map(({ id, distance }) => [id, distance])).toEqual([["b", 90]]);
    expect(both(corrected, less).throws.map(({ id, distance }) => [id, distance])).toEqual([["b", 90]]);
  });

  it("are not brought together with what cannot be read", () => {
    expect(mergedLogs(logToText(base), "{", logToText(base))).toBeNull();
  });
});

describe("the checklist of a copied revision", () => {
  const stood = { "machine.longArm": 4.2 };
  const copied = carried(
    { arm: { status: "looked", note: "new bolts", stood }, pin: { status: "to-do", note: "", stood: {} } },
    "As built",
  );

  it("says of each tick where it came from, and keeps what is to do", () => {
    expect(standingOf(copied.arm, stood)).toMatchObject({
      status: "looked",
      carried: "As built",
      note: "new bolts",
    });
    expect(standingOf(copied.pin, {})).toMatchObject({ status: "to-do", carried: null });
  });

  it("lets a tick fall whose number is changed there", () => {
    expect(standingOf(copied.arm, { "machine.longArm": 4.5 })).toMatchObject({
      status: null,
      carried: null,
      fallen: ["machine.longArm"],
    });
  });
});
