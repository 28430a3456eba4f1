"use client";
/** A quick preview for what is asked once: remembered, so that revisions that did not change cost nothing. */
import { type HazardRequest, type Preview, preview } from "@/lib/throw";

const REMEMBERED = 40;
const known = new Map<string, Preview | string>();

/** A sentence where it cannot be computed. Lets the page breathe first. */
export async function askOnce(request: HazardRequest): Promise<Preview | string> {
  const key = JSON.stringify(request);
  const before = known.get(key);
  if (before !== undefined) return before;
  await new Promise((resolve) => setTimeout(resolve));
  let answer: Preview | string;
  try {
    answer = preview(request);
  } catch (error) {
    answer = error instanceof Error ? error.message : String(error);
  }
  const [oldest] = known.keys();
  if (known.size >= REMEMBERED && oldest !== undefined) known.delete(oldest);
  known.set(key, answer);
  return answer;
}
