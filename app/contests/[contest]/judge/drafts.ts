/** What is typed and not saved yet, kept through a reload, a call or an empty battery: one draft a shot. */
import { type Draft, emptyDraft } from "./draft";

const name = (slug: string, shot: string) => `fairthrow:draft:${slug}:${shot}`;

/** For phones that store nothing: it lasts as long as the page. */
const remembered = new Map<string, string>();

export function loadDraft(slug: string, shot: string): Draft {
  const key = name(slug, shot);
  try {
    const found: unknown = JSON.parse(localStorage.getItem(key) ?? remembered.get(key) ?? "null");
    return found && typeof found === "object" ? { ...emptyDraft, ...found } : emptyDraft;
  } catch {
    return emptyDraft;
  }
}

export function saveDraft(slug: string, shot: string, draft: Draft): void {
  const key = name(slug, shot);
  const text = JSON.stringify(draft);
  const empty = draft.outcome === null && draft.reason === "" && Object.keys(draft.values).length === 0;
  if (empty) remembered.delete(key);
  else remembered.set(key, text);
  try {
    if (empty) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
  } catch {
    // A phone that stores nothing is told so where entries are kept.
  }
}
