/**
 * The server's time on a phone whose clock is wrong: from the Date header of its answers. It is kept through reloads,
 * because times are needed most where nothing answers.
 */
const NAME = "fairthrow:clock";
/** An answer that took longer says too little about when it was written, ms. */
const SLOWEST = 4000;
/** The header has whole seconds, cut off. */
const HALF_A_SECOND = 500;

let ahead: number | null = null;

/** Notes the Date header of an answer; the times are this phone's, ms. */
export function hearClock(date: string | null, asked: number, answered: number): void {
  const said = date === null ? Number.NaN : Date.parse(date);
  if (Number.isNaN(said) || answered < asked || answered - asked > SLOWEST) return;
  ahead = said + HALF_A_SECOND - (asked + answered) / 2;
  try {
    localStorage.setItem(NAME, String(ahead));
  } catch {
    // It lasts as long as the page.
  }
}

/** How far the server's clock is ahead of this phone's, ms; 0 while nothing was heard. */
export function clockAhead(): number {
  if (ahead !== null) return ahead;
  try {
    const kept = Number(localStorage.getItem(NAME));
    return Number.isFinite(kept) ? kept : 0;
  } catch {
    return 0;
  }
}

/** Now, by the server's clock. */
export const serverNow = (): Date => new Date(Date.now() + clockAhead());
