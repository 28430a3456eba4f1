/**
 * Texts that this browser keeps and several of its tabs work on. None is written over unseen: not by a tab that slept
 * while another one wrote, not by another tab's word while this page holds what the browser refused to keep.
 */
import { keep, kept } from "./browser-memory";

/**
 * What became of a page's words. Refused: the browser has no room, or stores nothing. Overtaken: another tab wrote
 * something else meanwhile, and somebody must say which counts. Held: what is kept cannot be read here, so it stays.
 * All but what is kept is on this page alone.
 */
export type Fate = "kept" | "refused" | "overtaken" | "held";

/** Both texts in one, from what both began with; null where that cannot be done. */
export type Merge = (own: string | null, other: string | null, base: string | null) => string | null;

const texts = new Map<string, KeptText>();
const watchers = new Set<() => void>();
let listening = false;

export class KeptText {
  readonly key: string;
  readonly #merge: Merge | undefined;
  /** What is kept, as this page saw it last; undefined before it has looked. */
  #seen: string | null | undefined;
  /** Words of this page that are not kept; undefined where there are none. */
  #own: string | null | undefined;
  #fate: Fate = "kept";
  readonly #listeners = new Set<(text: string | null) => void>();

  constructor(key: string, merge?: Merge) {
    this.key = key;
    this.#merge = merge;
  }

  get fate(): Fate {
    return this.#fate;
  }

  /** What this page goes by. */
  read(): string | null {
    if (this.#own !== undefined) return this.#own;
    this.#seen = kept(this.key);
    return this.#seen;
  }

  write(text: string | null): Fate {
    const now = kept(this.key);
    if (this.#seen === undefined) this.#seen = now;
    if (this.#fate === "held") this.#own = text;
    else if (now !== this.#seen || this.#fate === "overtaken") this.#meet(text, now);
    else this.#try(text);
    tell();
    return this.#fate;
  }

  /** What is kept cannot be read by this page: it stays there, and what is written from now on is on this page alone. */
  hold(): void {
    this.#fate = "held";
    tell();
  }

  /** Another tab's words, and those chosen by `settle`. */
  hear(listener: (text: string | null) => void): () => void {
    this.#listeners.add(listener);
    listen();
    return () => this.#listeners.delete(listener);
  }

  /** Looks whether another tab wrote something, or whether there is room by now. */
  look(): void {
    const now = kept(this.key);
    if (this.#seen === undefined || this.#fate === "held") return;
    if (this.#own === undefined) {
      if (now === this.#seen) return;
      this.#seen = now;
      for (const listener of this.#listeners) listener(now);
    } else if (now === this.#seen) {
      if (this.#fate === "refused") this.#try(this.#own);
    } else this.#meet(this.#own, now);
    tell();
  }

  /** Whose words count: this page's, or what is kept. */
  settle(whose: "here" | "there"): void {
    const own = this.#own;
    this.#seen = kept(this.key);
    this.#own = undefined;
    this.#fate = "kept";
    if (whose === "here" && own !== undefined) this.#try(own);
    else for (const listener of this.#listeners) listener(this.#seen);
    tell();
  }

  /** Puts what is kept and cannot be read out of the way, under a name of its own. False where there is no room for it. */
  setAside(): boolean {
    const text = kept(this.key);
    if (text === null) return true;
    const free = Array.from({ length: MOST_ASIDE }, (_, index) => asideKey(this.key, index)).find(
      (name) => kept(name) === null,
    );
    if (!free || !keep(free, text)) {
      this.hold();
      return false;
    }
    keep(this.key, null);
    this.#seen = null;
    this.#fate = "kept";
    tell();
    return true;
  }

  #try(text: string | null): void {
    const done = keep(this.key, text);
    this.#fate = done ? "kept" : "refused";
    this.#own = done ? undefined : text;
    if (done) this.#seen = text;
  }

  #meet(own: string | null, other: string | null): void {
    if (own === other) {
      this.#seen = other;
      this.#own = undefined;
      this.#fate = "kept";
      return;
    }
    const both = this.#merge?.(own, other, this.#seen ?? null) ?? null;
    if (both === null) {
      this.#own = own;
      this.#fate = "overtaken";
      return;
    }
    this.#seen = other;
    this.#try(both);
    for (const listener of this.#listeners) listener(both);
  }
}

/** The same one for all of the page. `merge` counts when it is asked for first. */
export function keptText(key: string, merge?: Merge): KeptText {
  const known = texts.get(key) ?? new KeptText(key, merge);
  texts.set(key, known);
  return known;
}

/** Tells when the fate of any text may have changed. */
export function onFates(hear: () => void): () => void {
  watchers.add(hear);
  listen();
  return () => watchers.delete(hear);
}

/** Those that are on this page alone, as one text that is equal as long as nothing changes. */
export const fates = (): string =>
  [...texts.values()]
    .filter(({ fate }) => fate !== "kept")
    .map(({ key, fate }) => `${key} ${fate}`)
    .join("\n");

function tell(): void {
  for (const hear of watchers) hear();
}

/** A tab that slept, or came back from the browser's cache of pages, has heard no other tab meanwhile. */
function listen(): void {
  if (listening) return;
  listening = true;
  const lookAtAll = () => {
    for (const text of texts.values()) text.look();
  };
  addEventListener("storage", ({ key }) => (key === null ? lookAtAll() : texts.get(key)?.look()));
  addEventListener("pageshow", lookAtAll);
  document.addEventListener("visibilitychange", lookAtAll);
}

const MOST_ASIDE = 9;
const ASIDE = /^(.+)-set-aside(?:-\d)?$/;
const asideKey = (key: string, index: number) => `${key}-set-aside${index === 0 ? "" : `-${index + 1}`}`;

/** The names of what was put out of the way, with that under which it was kept. */
export function allAside(): { name: string; of: string }[] {
  try {
    return Object.keys(localStorage)
      .flatMap((name) => {
        const of = ASIDE.exec(name)?.[1];
        return of ? [{ name, of }] : [];
      })
      .sort((a, b) => (a.name < b.name ? -1 : 1));
  } catch {
    return [];
  }
}
