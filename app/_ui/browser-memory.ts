/** What this browser keeps of forms, as text by key. */

/** Storage may be forbidden or full: then nothing is kept, and nothing breaks. */
export function keep(key: string, text: string | null) {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
  } catch {
    // Nothing to do: the page works without memory.
  }
}

export function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}
