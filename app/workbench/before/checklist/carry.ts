/** A revision that is copied takes its checklist along. */
import { keptText } from "@/app/_ui/kept-text";
import { FINDINGS_KEY } from "../../kept/names";
import { carried, findingsFromText } from "./findings";

/** All findings go along, each marked with where it came from: those whose numbers are changed there fall by themselves. */
export function carryOver(from: { id: string; name: string }, to: string): void {
  const store = keptText(FINDINGS_KEY);
  const all = findingsFromText(store.read());
  const found = all?.[from.id];
  if (found) store.write(JSON.stringify({ ...all, [to]: carried(found, from.name) }));
}
