/** A link for teams that is open, and an entry that waits: everything is there but one guardian's consent. All invented. */
import {
  addPhotograph,
  beginEntry,
  type Call,
  makeEntryLink,
  newEntryToken,
  type Reply,
  saveOwnEntry,
  sendOwnEntry,
} from "../../lib/contest";
import type { ENTRANTS } from "./content";

const DAY = 24 * 3600_000; // ms

const PEOPLE = [
  {
    id: "demo-captain-of-the-larks",
    name: "Tamsin Underhay",
    contact: "tamsin@larks.example",
    captain: true,
    ofAge: true,
  },
  { id: "demo-second-of-the-larks", name: "Jory Underhay", ofAge: true },
  {
    id: "demo-minor-of-the-larks",
    name: "Wren Underhay",
    ofAge: false,
    guardianName: "Jory Underhay",
    guardianContact: "0555 0142",
    consentWay: "paper",
  },
] as const;

/** A machine against the evening sky: a stand-in for a photograph. */
const PICTURE = `<svg xmlns="http://www.w3.org/2000/svg" width="1200" height="800">
  <rect width="1200" height="800" fill="#e7d9bd"/><rect y="640" width="1200" height="160" fill="#8a8f4e"/>
  <g stroke="#4b3621" stroke-width="22" fill="none"><path d="M380 660 560 330 740 660M440 560h240"/></g>
  <path d="M250 610 730 240" stroke="#6b4a2b" stroke-width="26"/><path d="M730 240v90" stroke="#333" stroke-width="8"/>
  <rect x="670" y="330" width="120" height="100" fill="#55524c"/><path d="M250 610q-60 40 40 46" stroke="#333" stroke-width="5" fill="none"/>
</svg>`;

export async function enterDemoTeam(
  organiser: () => Call,
  slug: string,
  { divisionId, like }: { divisionId: string; like: (typeof ENTRANTS)[number]["machine"] },
): Promise<void> {
  const endsAt = new Date(Date.now() + 30 * DAY).toISOString();
  const { token } = await done(makeEntryLink(organiser(), slug, { endsAt, most: 12, keepDays: 730 }));
  const team = (): Call => ({ ...organiser(), actor: null });
  const secret = newEntryToken();
  const { version } = await done(beginEntry(team(), slug, token, { secret }));
  await saveOwnEntry(team(), slug, secret, {
    version,
    team: "Larkspur Levers",
    divisionId,
    machineName: "Early Bird",
    declaration: like.declaration,
    ownNumbers: true,
    insurance: {
      insurer: "Hedgerow Mutual",
      number: "HM-20418",
      validUntil: "2099-12-31",
      coversThrowing: true,
    },
    people: PEOPLE,
  });
  const { default: sharp } = await import("sharp");
  const picture = await sharp(Buffer.from(PICTURE)).jpeg().toBuffer();
  await addPhotograph(team(), slug, secret, {}, async () => picture);
  await sendOwnEntry(team(), slug, secret);
}

const done = async <T>(reply: Promise<Reply<T>>): Promise<T> => (await reply).answer;
