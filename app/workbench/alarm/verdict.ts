/** Which throws of the log call STOP: found by the calibration, and standing until each is dealt with. Pure. */
import { z } from "zod";
import type { trials } from "@/lib/throw";
import { CODE_VERSION } from "@/lib/throw/version";
import { answerTo, changedIn, isStruck } from "../trials/log/history";
import { calibrating, type Group, groupsOf, type Log, RANKS, type Throw } from "../trials/log/log";
import { askedOf, type MachineAsked } from "../trials/machine/ask";
import { shortName } from "./hash";

const finite = z.number();

/** Of one throw that went too far. */
const findingSchema = z.object({
  throw: z.string(),
  rank: z.enum(RANKS),
  way: z.enum(["forward", "backward"]),
  /** As it was judged, m. */
  distance: finite,
  /** Beyond what it went, m; null where it is not known any more. */
  limit: finite.nullable(),
  /** What was to be expected of it by the other throws, or else by the model without loss, m. */
  expected: finite.nullable(),
  /** Held against the declared numbers alone, without their tolerances. */
  provisional: z.boolean(),
});
export type Finding = z.output<typeof findingSchema>;

const verdictSchema = z.object({
  /** Names what was judged. */
  of: z.string(),
  /** The search of the tolerances is still under way. */
  provisional: z.boolean(),
  findings: z.array(findingSchema),
});
export type Verdict = z.output<typeof verdictSchema>;

/** By the machine's short name. */
export type Verdicts = Readonly<Record<string, Verdict>>;

const keptSchema = z.object({ version: z.literal(1), machines: z.record(z.string(), verdictSchema) });

/** The same text for the same verdicts: two tabs must not answer each other for ever. */
export const verdictsToText = (machines: Verdicts): string =>
  JSON.stringify({
    version: 1,
    machines: Object.fromEntries(Object.entries(machines).sort(([a], [b]) => (a < b ? -1 : 1))),
  });

/** None where the text is none of ours: all is judged anew then. */
export function verdictsFromText(text: string | null): Verdicts {
  try {
    const read = keptSchema.safeParse(JSON.parse(text ?? "null"));
    return read.success ? read.data.machines : {};
  } catch {
    return {};
  }
}

/** One machine of the log, as it is to be judged. */
export interface Case {
  id: string;
  group: Group;
  asked: MachineAsked | null;
  /** Names all that decides the verdict. */
  of: string;
}

export const casesOf = (log: Log): Case[] =>
  groupsOf(log).map((group) => {
    const asked = askedOf(log, group);
    return { id: shortName(group.key), group, asked, of: shortName(CODE_VERSION + JSON.stringify(asked)) };
  });

export const isJudged = ({ id, asked, of }: Case, verdicts: Verdicts): boolean =>
  asked === null || (verdicts[id]?.of === of && !verdicts[id].provisional);

/** What a calibration of this very case says of its throws. */
export function verdictOf(
  { group, of }: Case,
  { calibration, behindWorst, held }: trials.CalibratedMachine,
  asked: MachineAsked,
  provisional: boolean,
): Verdict {
  const { forward, backward } = calibrating(group.throws);
  const ahead = calibration.marks.flatMap(
    ({ verdict, distance, upper99, predicted, modelled }, index): Finding[] => {
      const made = forward[index];
      if (!made || (verdict !== "alarm" && verdict !== "model-wrong")) return [];
      const hold = verdict === "model-wrong";
      return [
        {
          throw: made.id,
          rank: hold ? "hold" : "alarm",
          way: "forward",
          distance,
          limit: hold ? (held.forward[index]?.forward ?? null) : upper99,
          expected: predicted ?? modelled,
          provisional,
        },
      ];
    },
  );
  const behind = behindWorst.flatMap((index): Finding[] => {
    const made = backward[index];
    if (!made) return [];
    const limit = held.backward[index]?.backward ?? null;
    const distance = asked.backward[index]?.distance ?? 0;
    return [{ throw: made.id, rank: "hold", way: "backward", distance, limit, expected: null, provisional }];
  });
  return { of, provisional, findings: [...ahead, ...behind] };
}

const gravity = ({ rank }: Finding) => RANKS.indexOf(rank);

/** With a new verdict. A provisional one takes nothing back of what was said before: of each throw the worse counts. */
export function withVerdict(verdicts: Verdicts, id: string, found: Verdict): Verdicts {
  const before = verdicts[id];
  if (!found.provisional || !before) return { ...verdicts, [id]: found };
  const worse = new Map(before.findings.map((each) => [each.throw, each]));
  for (const each of found.findings) {
    const said = worse.get(each.throw);
    if (!said || gravity(each) > gravity(said)) worse.set(each.throw, each);
  }
  return { ...verdicts, [id]: { ...found, findings: [...worse.values()] } };
}

/** With what another tab found of just what is still to be judged here. */
export function withThoseOf(others: Verdicts, own: Verdicts, cases: readonly Case[]): Verdicts {
  const taken = cases.flatMap((each) => {
    const found = others[each.id];
    return found && isJudged(each, others) && !isJudged(each, own) ? [[each.id, found] as const] : [];
  });
  return taken.length > 0 ? { ...own, ...Object.fromEntries(taken) } : own;
}

/** A throw that calls STOP, and that nobody has dealt with. */
export interface Sign {
  made: Throw;
  /** Of its machine's throws, from 1. */
  number: number;
  group: Group;
  finding: Finding;
  /** Something changed since it was judged: it stands until it is judged anew. */
  old: boolean;
}

/** The gravest first. */
export function signsOf(cases: readonly Case[], verdicts: Verdicts): Sign[] {
  return cases
    .flatMap((each) =>
      (verdicts[each.id]?.findings ?? []).flatMap((finding): Sign[] => {
        const { throws } = each.group;
        const made = throws.find(({ id }) => id === finding.throw);
        if (!made || isStruck(made) || answerTo(made, finding.rank)) return [];
        const old = !isJudged(each, verdicts) && !finding.provisional;
        return [{ made, number: throws.indexOf(made) + 1, group: each.group, finding, old }];
      }),
    )
    .sort((a, b) => gravity(b.finding) - gravity(a.finding));
}

/** Whether anything that counts of a machine is not judged yet, or calls STOP. */
const isOpen = (own: Case, verdicts: Verdicts): boolean =>
  !isJudged(own, verdicts) || signsOf([own], verdicts).length > 0;

const caseOf = (cases: readonly Case[], id: string) =>
  cases.find(({ group }) => group.throws.some((each) => each.id === id));

/**
 * Whether a throw may not be gone without a trace: while STOP stands for its machine or is not ruled out yet, and where
 * there is anything to be told of it.
 */
export function leavesTrace(made: Throw, cases: readonly Case[], verdicts: Verdicts): boolean {
  const own = caseOf(cases, made.id);
  if (!own || (made.trace?.length ?? 0) > 0) return true;
  const { forward, backward } = calibrating([made]);
  return forward.length + backward.length > 0 && isOpen(own, verdicts);
}

/** Whether the last change may be taken back as if it had never been: not a throw or a number that may call STOP. */
export function mayUndo(log: Log, before: Log, cases: readonly Case[], verdicts: Verdicts): boolean {
  return log.throws.every((made) => {
    const was = before.throws.find(({ id }) => id === made.id);
    if (was && changedIn(was, made) === null) return true;
    const own = caseOf(cases, made.id);
    return own !== undefined && !isOpen(own, verdicts);
  });
}
