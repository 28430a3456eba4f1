/**
 * Entries, sightings and incidents that the server has not answered for. Each is written down on the phone with its key before it is sent for
 * the first time, and struck out only when the server has it: whatever closes, empties or falls in between, the same
 * key goes out again, and the server knows it.
 */
import {
  isEntry,
  isSighting,
  type KeptEntry,
  type KeptIncident,
  type KeptSighting,
  type KeptWrite,
  phoneDatabase,
} from "@/app/_ui/offline/database";
import { newKey } from "@/app/_ui/write/key";
import { type Sent, send } from "@/app/_ui/write/send";
import type { FixAnswer, IncidentReceipt, Problem, SightingInfo } from "@/lib/api/contracts";

export {
  isEntry,
  isSighting,
  type KeptEntry,
  type KeptIncident,
  type KeptSighting,
  type KeptWrite,
} from "@/app/_ui/offline/database";

type Answer = FixAnswer | SightingInfo | IncidentReceipt;

/** What a page does once the server has something. Whichever page is open sends all that waits. */
export interface WhenSaved {
  fix?: (entry: KeptEntry, answer: FixAnswer) => void;
  sighting?: (entry: KeptSighting, answer: SightingInfo) => void;
  incident?: (entry: KeptIncident, answer: IncidentReceipt) => void;
}

export interface Waiting {
  entries: readonly KeptWrite[];
  /** False when this phone would not store one: private browsing, or no room left. */
  stored: boolean;
  /** Until the phone's store was read. */
  loading: boolean;
}

const SOONEST = 2_000;
const LATEST = 60_000;

/** Not the entry's fault: it goes out again by itself. */
const passes = ({ status }: Problem) => status >= 500 || status === 401 || status === 408 || status === 429;

/** Something in the entry is to be put right. Whatever else is refused stays on the phone as it is. */
export const isAboutEntry = ({ status }: Problem) => status === 409 || status === 422;

export class Outbox {
  private state: Waiting = { entries: [], stored: true, loading: true };
  private readonly listeners = new Set<() => void>();
  private readonly busy = new Map<string, Promise<Sent<Answer>>>();
  private wait = SOONEST;
  private timer: ReturnType<typeof setTimeout> | undefined;
  private closed = false;

  constructor(
    private readonly slug: string,
    /** The badge that is signed in here. */
    private readonly owner: string | null,
    private readonly whenSaved: WhenSaved,
    private readonly sender: typeof sendEntry = sendEntry,
  ) {}

  subscribe = (listener: () => void) => {
    this.listeners.add(listener);
    return () => this.listeners.delete(listener);
  };
  snapshot = () => this.state;

  private show(part: Partial<Waiting>): void {
    this.state = { ...this.state, ...part };
    for (const listener of this.listeners) listener();
  }

  /** Reads what waits, and sends it. */
  async open(): Promise<void> {
    this.closed = false;
    try {
      const database = await phoneDatabase();
      for (const entry of takeOver(this.slug)) await database.put("entries", entry);
      forgetTakenOver(this.slug);
      const found = await database.getAllFromIndex("entries", "slug", this.slug);
      const known = new Set(this.state.entries.map(({ key }) => key));
      const entries = [...this.state.entries, ...found.filter(({ key }) => !known.has(key))];
      this.show({ entries: entries.sort((a, b) => a.madeAt.localeCompare(b.madeAt)), loading: false });
    } catch {
      // What the last version kept still goes out.
      this.show({ entries: [...this.state.entries, ...takeOver(this.slug)], stored: false, loading: false });
    }
    await this.flush();
  }

  close(): void {
    this.closed = true;
    clearTimeout(this.timer);
  }

  /** Writes an entry down; false when only this page holds it. */
  async keep(entry: KeptWrite): Promise<boolean> {
    const others = this.state.entries.filter(({ key }) => key !== entry.key);
    const stored = await store(entry);
    this.show({ entries: [...others, entry], stored });
    return stored;
  }

  async drop(key: string): Promise<void> {
    this.show({ entries: this.state.entries.filter((entry) => entry.key !== key) });
    await strike(key);
  }

  /** Makes another badge's entry this one's, under a new key; at no moment is it nowhere, or here twice. */
  async takeOver(entry: KeptWrite): Promise<void> {
    const own: KeptWrite = { ...entry, key: newKey(), owner: this.owner, tried: false, refused: null };
    const others = this.state.entries.filter(({ key }) => key !== entry.key);
    try {
      const write = (await phoneDatabase()).transaction("entries", "readwrite", { durability: "strict" });
      await Promise.all([write.store.put(own), write.store.delete(entry.key), write.done]);
    } catch {
      // A phone that stores nothing has it on this page alone, as before.
    }
    this.show({ entries: [...others, own] });
    await this.dispatch(own.key);
  }

  /** Whether this badge may send it: under another's the same key would count as a new entry. */
  owns = (entry: KeptWrite): boolean => entry.owner === null || entry.owner === this.owner;

  /** Sends one entry now; a second call while it is under way waits for the same answer. */
  dispatch<A extends Answer = FixAnswer>(key: string): Promise<Sent<A>> {
    const under = this.busy.get(key);
    if (under) return under as Promise<Sent<A>>;
    const sending = this.sendOne(key).finally(() => this.busy.delete(key));
    this.busy.set(key, sending);
    return sending as Promise<Sent<A>>;
  }

  private async sendOne(key: string): Promise<Sent<Answer>> {
    const entry = this.state.entries.find((one) => one.key === key);
    if (!entry || !this.owns(entry)) return { ok: false, reached: false };
    if (!entry.tried) await this.change({ ...entry, tried: true });
    const sent = await this.sender(entry);
    if (sent.ok) {
      this.wait = SOONEST;
      await this.drop(key);
      if (isEntry(entry)) this.whenSaved.fix?.(entry, sent.data as FixAnswer);
      else if (isSighting(entry)) this.whenSaved.sighting?.(entry, sent.data as SightingInfo);
      else this.whenSaved.incident?.(entry, sent.data as IncidentReceipt);
    } else if (sent.reached) {
      this.wait = SOONEST;
      // Refused for what it says: it is not on the server, and may be put right.
      await this.change({ ...entry, tried: !sent.settled, refused: sent.problem });
    }
    if (!sent.ok) this.later();
    return sent;
  }

  private async change(entry: KeptWrite): Promise<void> {
    if (!this.state.entries.some(({ key }) => key === entry.key)) return;
    await store(entry);
    this.show({ entries: this.state.entries.map((one) => (one.key === entry.key ? entry : one)) });
  }

  /** Sends all that may go, in the order in which it was made; stops where nothing answers. */
  async flush(): Promise<void> {
    for (const { key } of this.state.entries) {
      const entry = this.state.entries.find((one) => one.key === key);
      if (this.closed) return;
      if (!entry || !this.owns(entry) || (entry.refused && !passes(entry.refused))) continue;
      const sent = await this.dispatch(entry.key);
      if (!sent.ok && !sent.reached) return;
    }
  }

  /** The network is back, or the phone was taken out of the pocket. */
  wake = (): void => {
    this.wait = SOONEST;
    void this.flush();
  };

  private later(): void {
    if (this.closed) return;
    clearTimeout(this.timer);
    this.timer = setTimeout(() => void this.flush(), this.wait);
    this.wait = Math.min(this.wait * 2, LATEST);
  }
}

/** On the disk, not only on its way there, before it counts as kept. */
async function store(entry: KeptWrite): Promise<boolean> {
  try {
    const database = await phoneDatabase();
    const write = database.transaction("entries", "readwrite", { durability: "strict" });
    await Promise.all([write.store.put(entry), write.done]);
    return true;
  } catch {
    return false;
  }
}

async function strike(key: string): Promise<void> {
  try {
    await (await phoneDatabase()).delete("entries", key);
  } catch {
    // Nothing was stored; or it stays and goes out again with its key, which changes nothing.
  }
}

/** Where the version before kept its entries. */
const before = (slug: string) => `fairthrow:entries:${slug}`;

function takeOver(slug: string): KeptEntry[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(before(slug)) ?? "[]");
    if (!Array.isArray(found)) return [];
    return found.map((entry: KeptEntry) => ({ ...entry, slug, owner: null, tried: true }));
  } catch {
    return [];
  }
}

function forgetTakenOver(slug: string): void {
  try {
    localStorage.removeItem(before(slug));
  } catch {
    // A phone without that store had nothing in it.
  }
}

/**
 * Sends one entry. A phone whose clock runs far ahead is refused for its time alone; the entry then goes without one,
 * and the server's own stands in. A time that was read from paper is no clock's fault: a person puts it right.
 */
async function sendEntry({ url, body, key }: KeptWrite): Promise<Sent<Answer>> {
  const sent = await send<Answer>("POST", url, body, key);
  if (sent.ok || !sent.reached) return sent;
  const { errors = [] } = sent.problem;
  if ("witness" in body && body.witness !== undefined) return sent;
  if (errors.length === 0 || errors.some(({ field }) => field !== "observedAt")) return sent;
  const { observedAt: _, ...timeless } = body;
  return send<Answer>("POST", url, timeless, key);
}
