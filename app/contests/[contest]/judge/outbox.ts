/**
 * Entries that the server has not answered for. Each is written down on the phone with its key before it is sent
 * for the first time, and struck out only when the server has it.
 */
import type { FixRequest, Problem } from "@/lib/api/contracts";

export interface KeptEntry {
  key: string;
  url: string;
  body: FixRequest;
  shotId: string;
  /** "Round 3, 5 Gourd Gliders". */
  title: string;
  /** "132.44 m" or "foul". */
  result: string;
  /** ISO 8601. */
  madeAt: string;
  /** What the server said when it would not take it. */
  refused: Problem | null;
}

const name = (slug: string) => `fairthrow:entries:${slug}`;

export function keptEntries(slug: string): KeptEntry[] {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(name(slug)) ?? "[]");
    return Array.isArray(found) ? (found as KeptEntry[]) : [];
  } catch {
    return [];
  }
}

/** False when this phone would not store it: private browsing, or no room left. */
function store(slug: string, entries: readonly KeptEntry[]): boolean {
  try {
    localStorage.setItem(name(slug), JSON.stringify(entries));
    return true;
  } catch {
    return false;
  }
}

/** Adds an entry or replaces the one with its key; other tabs of this phone share the list. */
export function keep(slug: string, entry: KeptEntry): boolean {
  return store(slug, [...keptEntries(slug).filter(({ key }) => key !== entry.key), entry]);
}

export function strike(slug: string, key: string): void {
  store(
    slug,
    keptEntries(slug).filter((entry) => entry.key !== key),
  );
}
