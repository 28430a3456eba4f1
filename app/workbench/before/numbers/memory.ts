/** What is typed on these pages, kept in the browser; for as long as the page is open where it keeps nothing. */
import { keep, kept } from "@/app/_ui/browser-memory";

const unkept = new Map<string, string>();

/** False when it lasts only as long as the page. */
export function remember(key: string, text: string): boolean {
  const done = keep(key, text);
  if (done) unkept.delete(key);
  else unkept.set(key, text);
  return done;
}

export const recall = (key: string): string | null => unkept.get(key) ?? kept(key);
