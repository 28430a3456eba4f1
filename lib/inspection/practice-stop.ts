/**
 * STOP that stands on a team's practice throws, in the note of the revision that it declares: the team's browser writes it,
 * whoever inspects the machine reads it. No later revision takes it back: what went too far was a throw. Pure.
 */
const OPENING = "STOP stands on practice throws: ";

/** @param most signs that a note may have; what the team wrote goes last, and is cut first */
export const noteWithStop = (stops: readonly string[], note: string, most: number): string =>
  (stops.length === 0 ? note : `${OPENING}${stops.join("; ")}. ${note}`).slice(0, most).trim();

/** The newest revision that was declared while STOP stood. */
export function practiceStopIn<R extends { note: string }>(newestFirst: readonly R[]): R | null {
  return newestFirst.find(({ note }) => note.startsWith(OPENING)) ?? null;
}
