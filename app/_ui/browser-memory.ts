/** What this browser keeps of forms, as text by key. */

/** Storage may be forbidden or full: then nothing is kept, nothing breaks, and the answer is false. */
export function keep(key: string, text: string | null): boolean {
  try {
    if (text === null) localStorage.removeItem(key);
    else localStorage.setItem(key, text);
    return true;
  } catch {
    return false;
  }
}

export function kept(key: string): string | null {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
}
