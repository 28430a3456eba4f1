/**
 * A write that has no answer yet, kept by the browser: whoever loads the page anew and sends the same thing sends the same
 * write, and gets the answer that was lost.
 */
import type { Sent } from "./send";

export interface OpenTry {
  key: string;
  what: string;
}

export function keptTry(name: string): OpenTry | null {
  try {
    const kept: unknown = JSON.parse(localStorage.getItem(name) ?? "null");
    return kept && typeof kept === "object" && "key" in kept && "what" in kept ? (kept as OpenTry) : null;
  } catch {
    return null;
  }
}

export function keepTry(name: string, open: OpenTry | null): void {
  try {
    if (open) localStorage.setItem(name, JSON.stringify(open));
    else localStorage.removeItem(name);
  } catch {
    // It lasts as long as the page.
  }
}

/** Whether it can have done nothing that this answer does not tell. */
export const isOver = (sent: Sent<unknown>): boolean =>
  sent.ok || (sent.reached && (sent.settled || sent.problem.status === 401));
