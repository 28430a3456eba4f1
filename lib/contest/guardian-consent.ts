/** What the guardian of a minor reads and agrees to, on the screen and on paper. */

export interface ConsentAbout {
  contest: string;
  /** "3 October 2026", "3 to 4 October 2026": as the page writes days, or YYYY-MM-DD. */
  days: string;
  keepDays: number;
}

/** As the text has the days of a contest that the server tells. */
export const consentDays = ({ first, last }: { first: string; last: string }): string =>
  first === last ? `on ${first}` : `from ${first} to ${last}`;

/** A guardian agreed to certain days, and to no others that the contest is put off to. */
export const isForDays = (agreedTo: string, days: { first: string; last: string }): boolean =>
  agreedTo.includes(`, ${consentDays(days)},`);

export const consentText = ({ contest, days, keepDays }: ConsentAbout): string =>
  [
    `I am the parent or guardian of this minor. I know that the crew sets up, loads and fires a machine that throws heavy things, that such machines break, and that people can be badly hurt by them.`,
    `I agree that the minor is of the crew at ${contest}, ${days}, under the eyes of its captain, keeps to what the safety officer and the other officials say, and stays away from loaded machines unless the safety officer allows it.`,
    `I agree that the minor’s name, my name and how I am reached are kept for the organiser and the safety officer alone, in case something happens. They are erased ${keepDays} days after the contest’s last day, or earlier when I ask the organiser.`,
  ].join(" ");
