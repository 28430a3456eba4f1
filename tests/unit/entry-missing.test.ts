/** What an entry lacks, in words, and of what it stands in the way; how often something may come. */
import { expect, test } from "vitest";
import { type EntryToJudge, mayBe, missingOf } from "@/lib/contest/entry-missing";
import { consentDays, consentText } from "@/lib/contest/guardian-consent";
import { mustBeUnhurried } from "@/lib/contest/rate";

const CAPTAIN = {
  name: "Odalys",
  contact: "0555 0100",
  captain: true,
  ofAge: true,
  guardianName: "",
  guardianContact: "",
  consentWay: "here",
  agreedTo: null,
  consentAt: null,
} as const;
const MINOR = { ...CAPTAIN, name: "Pim", captain: false, ofAge: false, contact: "" };
const WHOLE: EntryToJudge = {
  team: "Fence Post Society",
  divisionId: "open",
  machineName: "Long Wait",
  declaration: {},
  ownNumbers: true,
  insurance: { insurer: "Field Mutual", number: "7", validUntil: "2031-10-05", coversThrowing: true },
  people: [CAPTAIN],
  photographs: [{ subject: "machine" }],
};
const DAYS = { first: "2031-10-04", last: "2031-10-05" };
const AGREED = consentText({ contest: "Oakfield", days: consentDays(DAYS), keepDays: 60 });
const lacks = (change: Partial<EntryToJudge>) =>
  missingOf({ ...WHOLE, ...change }, DAYS).map(({ blocks, text }) => `${blocks}: ${text}`);

test("nothing is missing of a whole entry; a photograph is only wished for", () => {
  expect(missingOf(WHOLE, DAYS)).toEqual([]);
  const missing = missingOf({ ...WHOLE, photographs: [{ subject: "insurance" }] }, DAYS);
  expect(missing).toMatchObject([{ part: "photographs", blocks: null }]);
  expect([mayBe("sent", missing), mayBe("accepted", missing)]).toEqual([true, true]);
});

test("an adult leads the crew and can be reached", () => {
  expect(lacks({ people: [] })).toEqual(["send: Captain: add the person who leads the crew."]);
  expect(lacks({ people: [CAPTAIN, { ...CAPTAIN, name: "Bea" }] })).toEqual([
    "send: Captain: tick one person, not several.",
  ]);
  expect(lacks({ people: [{ ...CAPTAIN, contact: "" }] })[0]).toContain("enter a telephone number");
  expect(lacks({ people: [{ ...CAPTAIN, ofAge: false }] })[0]).toContain("must be of age");
  expect(lacks({ people: [CAPTAIN, { ...CAPTAIN, captain: false, name: "", ofAge: null }] })).toEqual([
    "send: Person 2: enter the name, or take the line away.",
    "accept: Person 2: say whether of age.",
  ]);
});

test("a minor needs a guardian who is named, can be reached, and agrees here or on a form that was seen", () => {
  const withMinor = (change: object) => lacks({ people: [CAPTAIN, { ...MINOR, ...change }] });
  const named = { guardianName: "Ros", guardianContact: "0555 0101" };
  expect(withMinor({})).toHaveLength(3);
  expect(withMinor(named)).toEqual([
    "accept: Pim: the guardian’s consent is missing. Let the guardian read and tick it, or sign the form.",
  ]);
  expect(withMinor({ ...named, agreedTo: AGREED })).toEqual([]);
  // Put off to another day after the guardian had agreed.
  const earlier = AGREED.replace("from 2031-10-04", "from 2031-10-03");
  expect(withMinor({ ...named, agreedTo: earlier })[0]).toContain(
    "accept: Pim: the guardian agreed to other days",
  );
  const paper = { ...named, consentWay: "paper" };
  expect(withMinor(paper)[0]).toContain("has not seen the form");
  // What was ticked on the screen is no form.
  expect(withMinor({ ...paper, agreedTo: AGREED })).toHaveLength(1);
  expect(withMinor({ ...paper, consentAt: "2031-09-01T00:00:00Z" })).toEqual([]);
  const missing = missingOf({ ...WHOLE, people: [CAPTAIN, MINOR] }, DAYS);
  expect([mayBe("sent", missing), mayBe("accepted", missing)]).toEqual([true, false]);
});

test("the insurance holds until the contest is over and covers throwing", () => {
  const insured = (change: object) => lacks({ insurance: { ...WHOLE.insurance, ...change } });
  expect(insured({ validUntil: "2031-10-04" })).toEqual([
    "accept: Insurance valid until: it ends on 2031-10-04, before the contest is over on 2031-10-05.",
  ]);
  expect(insured({ coversThrowing: false })[0]).toContain("ask the insurer");
  expect(insured({ insurer: "", number: "", validUntil: null })).toHaveLength(3);
});

test("the example's numbers are nobody's machine", () => {
  expect(lacks({ ownNumbers: false })).toEqual([
    "send: Machine: say that the numbers were measured on your own machine.",
  ]);
  expect(lacks({ declaration: null })).toEqual(["send: Machine: its numbers are incomplete."]);
});

test("what comes too often waits, by its own name, until the first of it is old enough", () => {
  const rate = { most: 3, within: 60_000 };
  for (const at of [0, 10_000, 20_000]) mustBeUnhurried("one", rate, at);
  expect(() => mustBeUnhurried("one", rate, 30_000)).toThrow("try again in 30 s");
  mustBeUnhurried("another", rate, 30_000);
  mustBeUnhurried("one", rate, 60_001);
  expect(() => mustBeUnhurried("one", rate, 60_002)).toThrow(/too much/i);
});
