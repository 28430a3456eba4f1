/** What is typed and not saved yet, kept through a reload, a call or an empty battery. */
import { type Draft, emptyDraft } from "./draft";

/** For phones that store nothing: it lasts as long as the page. */
const remembered = new Map<string, string>();

/** What was typed under a name, laid over `empty`. */
export function loadTyped<T extends object>(name: string, empty: T): T {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(name) ?? remembered.get(name) ?? "null");
    return found && typeof found === "object" ? { ...empty, ...found } : empty;
  } catch {
    return empty;
  }
}

/** Null forgets it. */
export function saveTyped(name: string, typed: object | null): void {
  const text = JSON.stringify(typed);
  if (typed === null) remembered.delete(name);
  else remembered.set(name, text);
  try {
    if (typed === null) localStorage.removeItem(name);
    else localStorage.setItem(name, text);
  } catch {
    // A phone that stores nothing is told so where entries are kept.
  }
}

/** One draft a shot. */
const name = (slug: string, shot: string) => `fairthrow:draft:${slug}:${shot}`;

export const loadDraft = (slug: string, shot: string): Draft => loadTyped(name(slug, shot), emptyDraft);

export function saveDraft(slug: string, shot: string, draft: Draft): void {
  const empty = draft.outcome === null && draft.reason === "" && Object.keys(draft.values).length === 0;
  saveTyped(name(slug, shot), empty ? null : draft);
}
