/** STOP by a practice throw: what calls it, that it stands until somebody deals with it, and what is left to be read of it. */
import { beforeAll, describe, expect, test } from "vitest";
import { judge, type Part } from "@/app/workbench/alarm/judge";
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
import { beyondText, slipText, throwText } from "@/app/workbench/alarm/words";
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
      "Read as feet instead of metres it would be 70.1 m, about what was to be expected.",
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
