/**
 * What an entry still lacks, in words, and of what it stands in the way. Pure: the team's page and the organiser's say
 * the same.
 */
import type { FieldError } from "../api/check";
import type { EntryPerson, Insurance, Missing } from "../api/contracts";
import type { Days } from "../zones";
import { isForDays } from "./guardian-consent";

/** As much of an entry as decides it. */
export interface EntryToJudge {
  team: string;
  divisionId: string | null;
  machineName: string;
  declaration: object | null;
  ownNumbers: boolean;
  insurance: Insurance;
  people: readonly Pick<
    EntryPerson,
    | "name"
    | "contact"
    | "captain"
    | "ofAge"
    | "guardianName"
    | "guardianContact"
    | "consentWay"
    | "agreedTo"
    | "consentAt"
  >[];
  photographs: readonly { subject: string }[];
}

export const NO_INSURANCE: Insurance = { insurer: "", number: "", validUntil: null, coversThrowing: false };

/** @param days of the contest, YYYY-MM-DD */
export function missingOf(entry: EntryToJudge, days: Days): Missing[] {
  return [
    ...teamLacks(entry),
    ...entry.people.flatMap((person, index) => personLacks(person, index, days)),
    ...insuranceLacks(entry.insurance, days.last),
    ...machineLacks(entry),
    ...(entry.photographs.some(({ subject }) => subject === "machine")
      ? []
      : [
          {
            part: "photographs",
            blocks: null,
            text: "No photograph of the machine yet: one from the side helps the inspector.",
          } as const,
        ]),
  ];
}

/** What is in the way of it, part by part. */
export const inTheWay = (done: "sent" | "accepted", missing: readonly Missing[]): FieldError[] =>
  missing
    .filter(({ blocks }) => blocks === "send" || (done === "accepted" && blocks === "accept"))
    .map(({ part, text }) => ({ field: part, message: text }));

export const mayBe = (done: "sent" | "accepted", missing: readonly Missing[]): boolean =>
  inTheWay(done, missing).length === 0;

const toSend = (part: Missing["part"], text: string): Missing => ({ part, blocks: "send", text });
const toAccept = (part: Missing["part"], text: string): Missing => ({ part, blocks: "accept", text });

function teamLacks({ team, divisionId, people }: EntryToJudge): Missing[] {
  const captains = people.filter(({ captain }) => captain);
  const [captain] = captains;
  return [
    ...(team ? [] : [toSend("team", "Team name: enter the name that the public sees.")]),
    ...(divisionId ? [] : [toSend("team", "Division: choose the one that you throw in.")]),
    ...(captains.length === 1
      ? []
      : [
          toSend(
            "people",
            captain
              ? "Captain: tick one person, not several."
              : "Captain: add the person who leads the crew.",
          ),
        ]),
    ...(captain && captain.ofAge === false
      ? [toSend("people", "Captain: must be of age. Let an adult lead the crew.")]
      : []),
    ...(captain && !captain.contact
      ? [
          toSend(
            "people",
            "Captain: enter a telephone number or an e-mail address, so that you can be reached.",
          ),
        ]
      : []),
  ];
}

function personLacks(person: EntryToJudge["people"][number], index: number, days: Days): Missing[] {
  const { name, ofAge, guardianName, guardianContact, consentWay, agreedTo } = person;
  const who = name || `Person ${index + 1}`;
  const here = [
    ...(name ? [] : [toSend("people", `${who}: enter the name, or take the line away.`)]),
    ...(ofAge === null ? [toAccept("people", `${who}: say whether of age.`)] : []),
  ];
  if (ofAge !== false) return here;
  return [
    ...here,
    ...(guardianName ? [] : [toAccept("people", `${who}: enter the guardian’s name.`)]),
    ...(guardianContact
      ? []
      : [toAccept("people", `${who}: enter how the guardian is reached during the contest.`)]),
    ...(isAgreed(person)
      ? consentWay === "here" && agreedTo && !isForDays(agreedTo, days)
        ? [
            toAccept(
              "people",
              `${who}: the guardian agreed to other days than the contest has now. Let the guardian read the text again, take the tick away and tick it anew.`,
            ),
          ]
        : []
      : [
          toAccept(
            "people",
            consentWay === "paper"
              ? `${who}: the organiser has not seen the form signed by the guardian for the contest’s days yet.`
              : `${who}: the guardian’s consent is missing. Let the guardian read and tick it, or sign the form.`,
          ),
        ]),
  ];
}

/** Ticked here with the text, or the form seen. What is ticked and not saved yet has no time. */
export const isAgreed = ({
  consentWay,
  agreedTo,
  consentAt,
}: Pick<EntryPerson, "consentWay" | "agreedTo" | "consentAt">): boolean =>
  consentWay === "paper" ? consentAt !== null : agreedTo !== null;

function insuranceLacks(
  { insurer, number, validUntil, coversThrowing }: Insurance,
  lastDay: string,
): Missing[] {
  const lack = (text: string) => [toAccept("insurance", text)];
  return [
    ...(insurer ? [] : lack("Insurer: enter who insures the team.")),
    ...(number ? [] : lack("Insurance number: enter the policy’s number.")),
    ...(validUntil === null
      ? lack("Insurance valid until: enter its last day.")
      : validUntil < lastDay
        ? lack(`Insurance valid until: it ends on ${validUntil}, before the contest is over on ${lastDay}.`)
        : []),
    ...(coversThrowing
      ? []
      : lack("Insurance: ask the insurer whether throwing with a machine is covered, then tick it.")),
  ];
}

function machineLacks({ machineName, declaration, ownNumbers }: EntryToJudge): Missing[] {
  return [
    ...(machineName ? [] : [toSend("machine", "Machine’s name: enter what it is called.")]),
    ...(declaration ? [] : [toSend("machine", "Machine: its numbers are incomplete.")]),
    ...(declaration && !ownNumbers
      ? [toSend("machine", "Machine: say that the numbers were measured on your own machine.")]
      : []),
  ];
}
