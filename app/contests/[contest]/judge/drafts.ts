/** What is typed and not saved yet, kept through a reload, a call or an empty battery. */
import { type Draft, emptyDraft } from "./entry";

const name = (slug: string, shot: string) => `fairthrow:draft:${slug}:${shot}`;

export function loadDraft(slug: string, shot: string): Draft {
  try {
    const found: unknown = JSON.parse(localStorage.getItem(name(slug, shot)) ?? "null");
    return found && typeof found === "object" ? { ...emptyDraft, ...found } : emptyDraft;
  } catch {
    return emptyDraft;
  }
}

export function saveDraft(slug: string, shot: string, draft: Draft | null): void {
  try {
    if (draft && draft.outcome !== null) localStorage.setItem(name(slug, shot), JSON.stringify(draft));
    else localStorage.removeItem(name(slug, shot));
  } catch {
    // A phone that stores nothing is told so where entries are kept.
  }
}
