/**
 * One line to the server for all that a page shows live: browsers allow few to one host. It is opened anew when it breaks
 * or has gone quiet, from what was heard last.
 */
import type { LiveChange, RangeBrief } from "@/lib/api/contracts";

/** The server's heartbeat comes every five seconds; after this long without one the line counts as dead, ms. */
const SILENCE = 11_000;
const RETRY = 3_000;

export interface Ears {
  /** Sequence of the newest scorebook entry that this part of the page was made with. */
  known: number;
  /** `missed`: others came before this one that were never heard. */
  onChange?: (change: LiveChange, missed: boolean) => void;
  onRange?: (brief: RangeBrief) => void;
  /** `at`: ms; null while nothing was heard at all. */
  onHeard: (at: number | null, open: boolean) => void;
}

class Feed {
  readonly #ears = new Set<Ears>();
  #source: EventSource | null = null;
  #last = Date.now();
  #heardAt: number | null = null;
  #open = false;
  #sequence: number;
  #newest: LiveChange | null = null;
  #standings: LiveChange | null = null;
  #range: RangeBrief | null = null;
  readonly #watch: ReturnType<typeof setInterval>;

  constructor(
    private readonly address: string,
    known: number,
  ) {
    this.#sequence = known;
    this.#connect();
    addEventListener("offline", this.#lost);
    addEventListener("online", this.#connect);
    this.#watch = setInterval(() => {
      const silent = Date.now() - this.#last > SILENCE;
      if (silent) this.#lost();
      if (silent || this.#source?.readyState === EventSource.CLOSED) this.#connect();
    }, RETRY);
  }

  add(ears: Ears): void {
    this.#ears.add(ears);
    ears.onHeard(this.#heardAt, this.#open);
    if (this.#range) ears.onRange?.(this.#range);
    // What came before it listened, told as the server tells one who comes late.
    const newest = this.#newest;
    if (newest && newest.sequence > ears.known) {
      const { standings } =
        (this.#standings?.sequence ?? 0) > ears.known ? (this.#standings ?? newest) : newest;
      this.#tell(ears, { ...newest, ...(standings && { standings }) });
    }
  }

  /** Whether anybody listens still. */
  remove(ears: Ears): boolean {
    this.#ears.delete(ears);
    if (this.#ears.size > 0) return true;
    clearInterval(this.#watch);
    removeEventListener("offline", this.#lost);
    removeEventListener("online", this.#connect);
    this.#source?.close();
    return false;
  }

  readonly #connect = () => {
    this.#source?.close();
    this.#last = Date.now();
    const source = new EventSource(`${this.address}?after=${this.#sequence}`);
    this.#source = source;
    source.addEventListener("open", this.#note);
    source.addEventListener("heartbeat", this.#note);
    source.addEventListener("error", this.#lost);
    source.addEventListener("range", (event) => {
      this.#note();
      const brief = JSON.parse((event as MessageEvent<string>).data) as RangeBrief;
      this.#range = brief;
      for (const ears of this.#ears) ears.onRange?.(brief);
    });
    source.addEventListener("change", (event) => {
      this.#note();
      const change = JSON.parse((event as MessageEvent<string>).data) as LiveChange;
      this.#sequence = Math.max(this.#sequence, change.sequence);
      this.#newest = change;
      if (change.standings) this.#standings = change;
      for (const ears of this.#ears) this.#tell(ears, change);
    });
  };

  #tell(ears: Ears, change: LiveChange): void {
    const missed = change.sequence > ears.known + 1;
    ears.known = Math.max(ears.known, change.sequence);
    ears.onChange?.(change, missed);
  }

  readonly #note = () => {
    this.#last = Date.now();
    this.#heardAt = this.#last;
    this.#say(true);
  };

  readonly #lost = () => this.#say(false);

  #say(open: boolean): void {
    this.#open = open;
    for (const ears of this.#ears) ears.onHeard(this.#heardAt, open);
  }
}

const feeds = new Map<string, Feed>();

/** Listens until what it answers is called. */
export function listenTo(address: string, ears: Ears): () => void {
  const feed = feeds.get(address) ?? new Feed(address, ears.known);
  feeds.set(address, feed);
  feed.add(ears);
  return () => {
    if (!feed.remove(ears)) feeds.delete(address);
  };
}
