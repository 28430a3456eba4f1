/** Who may do what: the one table. Every command and query asks it; what a screen hides is only politeness. */
import type { Role } from "../api/contracts";
import { Refusal } from "./errors";

/** Who asks: a badge that is signed in, for one contest. */
export interface Actor {
  badgeId: string;
  role: Role;
  label: string;
  contestId: string;
  contestSlug: string;
  /** The team's entrant; null for officials. */
  entrantId: string | null;
}
/** `null` is anyone who has not signed in. */
export type Asker = Actor | null;

/** "own": only what belongs to the badge's own entrant. */
type Grant = true | "own";

/**
 * Reading the contest, its zones, shots, standings and scorebook is open to all, and so is the calculator.
 * Everything else is here; a role that is not named may not.
 */
export const MAY = {
  "create another contest": { organiser: true },
  "change the contest": { organiser: true },
  "lay out divisions, entrants, firing points and site features": { organiser: true },
  "enter a machine": { organiser: true },
  "make and revoke badges": { organiser: true },
  "invite teams to enter themselves": { organiser: true },
  // Names, contacts, guardians, photographs: the organiser, and who must reach a guardian when somebody is hurt.
  "see entries of teams with their people": { organiser: true, "safety-officer": true },
  "decide on an entry of a team": { organiser: true },
  "erase people's data of an entry": { organiser: true },
  "make a firing order": { organiser: true },
  // Who is called to the line but not ready is seen there.
  "move a turn": { organiser: true, "safety-officer": true },
  // Its crew knows how long it takes; an organiser has watched it.
  "say how long a machine takes": { organiser: true, team: "own" },
  // Where it stands is the organiser's plan; turning or moving it is also how a safety officer cures a conflict.
  "place a machine": { organiser: true, "safety-officer": true },
  // What it is, only those who build it or who write their paper in may say.
  "declare a machine revision": { organiser: true, team: "own" },
  // Not who wants the machine to throw, and not who measures what it threw.
  "inspect a machine": { "safety-officer": true },
  // Numbers that a tape has shown to be others; whatever else a machine is, its team says.
  "revise a machine as measured": { "safety-officer": true },
  "sign and withdraw firing permits": { "safety-officer": true },
  "see inspections and firing permits": {
    organiser: true,
    "safety-officer": true,
    judge: true,
    team: "own",
  },
  "set the policy": { "safety-officer": true },
  "set the air": { "safety-officer": true },
  // A crowd line nearer to a zone than its kind's distance.
  "allow a looser protection": { "safety-officer": true },
  // It lets people stand where a throw would have come.
  "sign for a barrier": { "safety-officer": true },
  // Whoever stands where it blows.
  "read the wind": { organiser: true, "safety-officer": true, judge: true },
  "record a fix": { judge: true },
  "sight a splash": { judge: true },
  // A no-show or a withdrawal is seen on the line by whoever stands there.
  "rule on an entrant": { organiser: true, "safety-officer": true, judge: true },
  // Not by the judge who measured it.
  "rule on a shot": { organiser: true, "safety-officer": true },
  // Not by another judge: whoever lost a badge may hold the next one.
  "confirm an entry of an ended badge": { organiser: true, "safety-officer": true },
  "rule on a protest": { organiser: true, "safety-officer": true },
  "set the mark rule": { organiser: true },
  // An official writes it down for a team that comes to the line.
  "enter a protest": { organiser: true, "safety-officer": true, judge: true, team: "own" },
  "keep the register of consents and the safety plan": { organiser: true, "safety-officer": true },
  "freeze a safety file": { organiser: true, "safety-officer": true },
  "see consents, safety plan and safety files": { organiser: true, "safety-officer": true, judge: true },
  // Whoever sees the danger.
  "hold the range": { organiser: true, "safety-officer": true, judge: true },
  "lift a hold": { "safety-officer": true },
  "put the range hot or cold": { "safety-officer": true },
  "set the times of the range": { "safety-officer": true },
  "tick the stand-clear list": { organiser: true, "safety-officer": true, judge: true },
  "say clear at a post": { organiser: true, "safety-officer": true, judge: true },
  "keep the tally": { organiser: true, "safety-officer": true, judge: true },
  "erase names of the tally": { organiser: true, "safety-officer": true },
  // The crew's chief; the safety officer where that phone is dead.
  "enter a machine's state": { "safety-officer": true, team: "own" },
  "name who approaches a misfire": { "safety-officer": true },
  "play a rehearsal": { organiser: true, "safety-officer": true },
  // Whoever sees it.
  "enter an incident": { organiser: true, "safety-officer": true, judge: true },
  // Never public: what happened to people is in it.
  "see incidents": { organiser: true, "safety-officer": true },
  "erase what was written of an incident": { organiser: true, "safety-officer": true },
  "see the judge's view": { organiser: true, "safety-officer": true, judge: true },
  "see a machine's declaration and sheet": {
    organiser: true,
    "safety-officer": true,
    judge: true,
    team: "own",
  },
} as const satisfies Record<string, Partial<Record<Role, Grant>>>;

export type Act = keyof typeof MAY;

const NAMES: Record<Role, string> = {
  organiser: "an organiser",
  "safety-officer": "a safety officer",
  judge: "a judge",
  team: "the machine's own team",
};

/** Whether `actor` may; `entrantId` is whose thing it is, for what teams may do with their own. */
export function may(actor: Asker, act: Act, contestId: string, entrantId?: string): boolean {
  if (!actor || actor.contestId !== contestId) return false;
  const grant = (MAY[act] as Partial<Record<Role, Grant>>)[actor.role];
  return grant === true || (grant === "own" && !!entrantId && actor.entrantId === entrantId);
}

/** Throws 401 for those who have not signed in, 403 for those who may not. */
export function mustBeAllowed(
  actor: Asker,
  act: Act,
  contestId: string,
  entrantId?: string,
): asserts actor is Actor {
  if (!actor) throw new Refusal(401, "sign-in", `Sign in with your badge first: this is for ${whoMay(act)}.`);
  if (actor.contestId !== contestId)
    throw new Refusal(
      403,
      "other-contest",
      "Your badge is for another contest. Sign in with one for this contest.",
    );
  if (!may(actor, act, contestId, entrantId))
    throw new Refusal(
      403,
      "not-allowed",
      `Only ${whoMay(act)} may ${act}. You are signed in as ${actor.label}.`,
    );
}

function whoMay(act: Act): string {
  const names = (Object.keys(MAY[act]) as Role[]).map((role) => NAMES[role]);
  return names.length > 1 ? `${names.slice(0, -1).join(", ")} or ${names.at(-1)}` : (names[0] ?? "nobody");
}
