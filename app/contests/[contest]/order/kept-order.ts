/** The firing order as this phone last got it: a page that opens without a network may be older than that. */
import type { FiringOrder } from "@/lib/api/contracts";

const name = (slug: string) => `fairthrow:order:${slug}`;

/** Storage may be forbidden or full: the page works on with what it holds. */
export function keepOrder(slug: string, order: FiringOrder): void {
  try {
    localStorage.setItem(name(slug), JSON.stringify(order));
  } catch {
    // Only a reload without a network would have needed it.
  }
}

/** The kept order if it is newer than what the page came with, else null. */
export function newerOrder(slug: string, at: string): FiringOrder | null {
  try {
    const found = JSON.parse(localStorage.getItem(name(slug)) ?? "null") as FiringOrder | null;
    return found && Array.isArray(found.turns) && found.at > at ? found : null;
  } catch {
    return null;
  }
}
