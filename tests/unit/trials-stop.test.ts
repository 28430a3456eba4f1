/** STOP by a practice throw: what calls it, that it stands until somebody deals with it, and what is left to be read of it. */
import { beforeAll, describe, expect, test } from "vitest";
import { type Carried, carriedFrom, carriedInLink, carriedOutOfLink } from "@/app/workbench/alarm/carried";
import { judge, type Part } from "@/app/workbench/alarm/judge";
import {
  mergedReceived,
  receivedFromText,
  nameOf as receivedName,
  receivedToText,
  stands,
  withAnswer,
  withReceived,
} from "@/app/workbench/alarm/received";
import {
  type Case,
  casesOf,
  isJudged,
  leavesTrace,
  mayUndo,
  signsOf,
  type Verdict,
  type Verdicts,
  verdictOf,
  verdictsFromText,
  verdictsToText,
  withThoseOf,
  withVerdict,
} from "@/app/workbench/alarm/verdict";
import { beyondText, carriedText, slipText, throwText } from "@/app/workbench/alarm/words";
import { answerTo, isStruck } from "@/app/workbench/trials/log/history";
import {
  calibrating,
  corrected,
  emptyLog,
  type Log,
  logFromText,
  logToText,
  type Throw,
  without,
  withThrow,
  withTrace,
} from "@/app/workbench/trials/log/log";
import { mergedLogs } from "@/app/workbench/trials/log/merge";
import { noteWithStop, practiceStopIn } from "@/lib/inspection";
import { type HazardRequest, hazardRequestSchema, tuning } from "@/lib/throw";

/** A machine by its measured speed: its search takes no time. Airless: v² / g = 91.8 m at 45°, at most. */
const request: HazardRequest = hazardRequestSchema.parse({
  machine: { kind: "measured", releaseSpeed: 30, launchAngle: 40, launchHeight: 1 },
  projectile: { mass: 4, diameter: 0.2 },
  tolerances: { releaseSpeed: 1 },
});
const NOW = "2031-05-03T15:00";
const thrown = (id: string, distance: number, more: Partial<Throw> = {}): Omit<Throw, "machine"> => ({
  ...{ id, at: `2031-05-03T14:0${id.charCodeAt(0) - 97}`, settings: { launchAngle: 40 }, wind: null },
  ...{ mass: null, result: "landed", distance, aside: null, uncertainty: null, note: "", pieces: [] },
  ...{ film: null, ...more },
});
const add = (log: Log, made: Omit<Throw, "machine">, of = request) =>
  withThrow(log, made, { name: "As built", request: of }, `machine of ${made.id}`);
const logOf = (...throws: Omit<Throw, "machine">[]) => throws.reduce((log, each) => add(log, each), emptyLog);
const usual = [thrown("a", 70), thrown("b", 71), thrown("c", 69), thrown("d", 70.5)];

function judged(log: Log, before: Verdicts = {}): Verdicts {
  let verdicts = before;
  for (const each of casesOf(log)) {
    if (!each.asked || isJudged(each, verdicts)) continue;
    for (const part of partsOf(each)) {
      if ("failure" in part) throw new Error(part.failure);
      verdicts = withVerdict(verdicts, each.id, verdictOf(each, part.found, each.asked, part.provisional));
    }
  }
  return verdicts;
}
function partsOf({ asked }: Case): Part[] {
  const parts: Part[] = [];
  if (asked) judge(asked, (part) => parts.push(part));
  return parts;
}
const calling = (log: Log, verdicts = judged(log)) =>
  signsOf(casesOf(log), verdicts).map(({ made, finding }) => [made.id, finding.rank]);

const far = logOf(...usual, thrown("e", 300));
const alarming = logOf(...usual, thrown("e", 88));
let known: Verdicts;
beforeAll(() => {
  known = judged(far);
});

describe("STOP", () => {
  test("is called by an alarm, and by a throw beyond the worst, ahead or behind", () => {
    expect(calling(logOf(...usual))).toEqual([]);
    expect(calling(alarming)).toEqual([["e", "alarm"]]);
    expect(calling(far, known)).toEqual([["e", "hold"]]);
    expect(calling(add(alarming, thrown("f", 400, { result: "backwards" })))).toEqual([
      ["f", "hold"],
      ["e", "alarm"],
    ]);
  });

  test("says which throw it was, beyond what it went, and the slip that would explain it", () => {
    const [sign] = signsOf(
      casesOf(logOf(...usual, thrown("e", 230))),
      judged(logOf(...usual, thrown("e", 230))),
    );
    if (!sign) throw new Error("No sign.");
    expect(throwText(sign, "metric")).toBe("Throw 5 of “As built”: 230 m ahead");
    expect(beyondText(sign, "metric")).toMatch(/^beyond \d+(\.\d)? m, the worst that is computed/);
    expect(slipText(sign, "metric")).toBe(
      "If 230 is its number of feet, not of metres, it would be 70.1 m, about what was to be expected.",
    );
    expect(slipText({ ...sign, finding: { ...sign.finding, distance: 715 } }, "metric")).toMatch(
      /^With a digit less it would be 71\.5 m/,
    );
    expect(slipText({ ...sign, finding: { ...sign.finding, distance: 300 } }, "metric")).toBeNull();
  });

  test("stands whatever the machine is changed to: the throw keeps what was declared when it was made", () => {
    const longer = tuning.withValues(request, { launchHeight: 1.01 });
    const wider = { ...request, tolerances: { releaseSpeed: 60 } };
    for (const changed of [longer, wider]) {
      const log = add(far, thrown("f", 70), changed);
      const verdicts = judged(log, known);
      expect(signsOf(casesOf(log), verdicts).map(({ made }) => made.id)).toEqual(["e"]);
    }
  });

  test("stands as it was judged last until what changed has been judged", () => {
    const log = add(far, thrown("f", 70));
    const [sign] = signsOf(casesOf(log), known);
    expect([sign?.made.id, sign?.old]).toEqual(["e", true]);
    expect(signsOf(casesOf(far), known)[0]?.old).toBe(false);
    // A mark that is corrected is judged anew, and only then does it go.
    const right = corrected(far, { ...(far.throws[4] as Throw), distance: 70 }, NOW);
    expect(calling(right, known)).toEqual([["e", "hold"]]);
    expect(calling(right, judged(right, known))).toEqual([]);
  });

  test("is taken back by no quick answer, and by that of the whole search", () => {
    const quiet: Verdict = { of: "x", provisional: true, findings: [] };
    const id = Object.keys(known)[0] as string;
    expect(withVerdict(known, id, quiet)[id]?.findings).toHaveLength(1);
    expect(withVerdict(known, id, { ...quiet, provisional: false })[id]?.findings).toHaveLength(0);
  });

  test("comes back from what was kept, and from what another tab has judged of the same throws alone", () => {
    expect(verdictsFromText(verdictsToText(known))).toEqual(known);
    expect(verdictsFromText("{cut")).toEqual({});
    const [open] = casesOf(far) as [Case];
    expect(isJudged(open, withThoseOf(known, {}, [open]))).toBe(true);
    const elsewhere = casesOf(alarming);
    expect(withThoseOf(known, {}, elsewhere)).toEqual({});
  });
});

describe("dealing with it", () => {
  const answered = (log: Log, rank: "alarm" | "hold") =>
    withTrace(log, "e", { at: NOW, did: "answered", reason: "counterweight weighed: 20 kg more", rank });

  test("takes a stated reason, which stays with the throw", () => {
    const log = answered(far, "hold");
    expect(calling(log, judged(log, known))).toEqual([]);
    expect(logFromText(logToText(log))).toEqual(log);
    expect(answerTo(log.throws[4] as Throw, "hold")?.reason).toMatch(/20 kg more/);
  });

  test("an answer to an alarm is none to a wrong model, and one to other numbers is none to these", () => {
    expect(calling(answered(far, "alarm"), known)).toEqual([["e", "hold"]]);
    const log = answered(far, "hold");
    const farther = corrected(log, { ...(log.throws[4] as Throw), distance: 310 }, NOW);
    expect(calling(farther, judged(farther, known))).toEqual([["e", "hold"]]);
    const noted = corrected(log, { ...(log.throws[4] as Throw), note: "windy" }, NOW);
    expect(calling(noted, judged(noted, known))).toEqual([]);
  });

  test("a throw that is struck out counts no more, stays in the log, and counts again when it is taken back", () => {
    const struck = withTrace(far, "e", { at: NOW, did: "struck", reason: "written down twice" });
    expect(calibrating(struck.throws).forward.map(({ id }) => id)).toEqual(["a", "b", "c", "d"]);
    expect(calling(struck, known)).toEqual([]);
    expect(struck.throws).toHaveLength(5);
    const again = withTrace(struck, "e", { at: NOW, did: "restored", reason: "" });
    expect(isStruck(again.throws[4] as Throw)).toBe(false);
    expect(calling(again, known)).toEqual([["e", "hold"]]);
  });

  test("a correction keeps what it changed, and nothing else", () => {
    const log = corrected(far, { ...(far.throws[4] as Throw), distance: 70, note: "a digit" }, NOW);
    expect(log.throws[4]?.trace).toEqual([
      { at: NOW, did: "corrected", reason: "", was: { distance: 300, note: "" } },
    ]);
    const same = corrected(far, { ...(far.throws[4] as Throw), pieces: [] }, NOW);
    expect(same.throws[4]?.trace).toBeUndefined();
  });

  test("no throw of a machine goes without a trace while STOP stands, is not ruled out, or was once there", () => {
    const [first] = far.throws as [Throw];
    expect(leavesTrace(first, casesOf(far), known)).toBe(true);
    expect(leavesTrace(first, casesOf(far), {})).toBe(true);
    const calm = logOf(...usual);
    const verdicts = judged(calm);
    expect(leavesTrace(calm.throws[0] as Throw, casesOf(calm), verdicts)).toBe(false);
    const once = corrected(calm, { ...(calm.throws[0] as Throw), distance: 71 }, NOW);
    expect(leavesTrace(once.throws[0] as Throw, casesOf(once), judged(once))).toBe(true);
  });

  test("what calls STOP is not taken back as if it had never been written; a removal is", () => {
    const calm = logOf(...usual);
    expect(mayUndo(far, calm, casesOf(far), known)).toBe(false);
    expect(mayUndo(far, calm, casesOf(far), {})).toBe(false);
    const more = add(calm, thrown("f", 70));
    expect(mayUndo(more, calm, casesOf(more), judged(more))).toBe(true);
    expect(mayUndo(without(far, "a"), far, casesOf(without(far, "a")), known)).toBe(true);
  });

  test("what two tabs did to one throw stays told in both", () => {
    const mine = withTrace(far, "e", { at: NOW, did: "answered", reason: "weighed anew", rank: "hold" });
    const theirs = corrected(far, { ...(far.throws[4] as Throw), distance: 70 }, "2031-05-03T14:59");
    const both = logFromText(mergedLogs(logToText(mine), logToText(theirs), logToText(far))) as Log;
    expect(both.throws[4]?.trace?.map(({ did }) => did)).toEqual(["corrected", "answered"]);
  });
});

describe("STOP that goes along with a machine", () => {
  const log = logOf(...usual, thrown("e", 230));
  const cases = casesOf(log);
  const carried = carriedFrom(signsOf(cases, judged(log)), [], false, []);

  test("is what was found, and the same through a link", () => {
    expect(carried).toMatchObject([
      { rank: "hold", way: "forward", distance: 230, number: 5, throw: "e", machine: "As built" },
    ]);
    expect(carriedInLink(carried).map(carriedOutOfLink)).toEqual(carried);
    expect(carriedOutOfLink("hold~sideways")).toMatchObject({ rank: "not-judged" });
    expect(carriedText(carried[0] as Carried, "metric")).toMatch(
      /^Throw 5 of “As built”: 230 m ahead, beyond \d+(\.\d)? m, the worst .*, thrown 3 May 2031, 14:04$/,
    );
  });

  test("says what is not judged, and what cannot be read", () => {
    const unknown = carriedFrom([], cases, true, []);
    expect(unknown.map((each) => carriedText(each, "metric"))).toEqual([
      "Whether one of 5 throws of “As built” went too far was not judged; the last was thrown 3 May 2031, 14:04",
      "Practice throws of it could not be read: whether one went too far is not known",
    ]);
  });

  test("stands until it is answered in writing, and an answer of either tab counts", () => {
    const came = withReceived([], carried, "a link");
    expect(withReceived(came, carried, "another link")).toEqual(came);
    const [first] = came;
    if (!first) throw new Error("None came.");
    const done = withAnswer(came, receivedName(first), { at: NOW, reason: "the pouch was another one" });
    expect(done.some(stands)).toBe(false);
    expect(withReceived(done, carried, "a link").some(stands)).toBe(false);
    // The same throw, found to be worse: nobody answered that.
    const worse = carried.map((each) => ({ ...each, distance: 300 }));
    expect(withReceived(done, worse, "a link").filter(stands)).toHaveLength(1);
    for (const [own, other] of [
      [came, done],
      [done, came],
    ] as const)
      expect(receivedFromText(mergedReceived(receivedToText(own), receivedToText(other)))).toEqual(done);
    expect(receivedFromText("{cut")).toBeNull();
  });

  test("stands in front of the note of a declaration, and a later one does not hide it", () => {
    const note = noteWithStop(["throw 5: 230 m"], "As built", 300);
    expect(note).toBe("STOP stands on practice throws: throw 5: 230 m. As built");
    expect(noteWithStop([], "As built", 300)).toBe("As built");
    expect(practiceStopIn([{ note: "Longer sling" }, { note }, { note: "As entered" }])).toEqual({ note });
    expect(practiceStopIn([{ note: "Longer sling" }])).toBeNull();
  });
});
