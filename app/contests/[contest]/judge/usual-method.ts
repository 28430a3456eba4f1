/** The way to measure that this phone used last in a contest: it is offered first. A last resort never is. */
import { type FixMethod, METHODS } from "@/lib/survey";

const name = (slug: string) => `fairthrow:method:${slug}`;

export function usualMethod(slug: string): FixMethod | null {
  try {
    const kept = localStorage.getItem(name(slug));
    return METHODS.find(({ method }) => method === kept)?.method ?? null;
  } catch {
    return null;
  }
}

export function rememberMethod(slug: string, method: FixMethod): void {
  if (METHODS.some((one) => one.method === method && "coarse" in one)) return;
  try {
    localStorage.setItem(name(slug), method);
  } catch {
    // The next shot then starts with the first one again.
  }
}
