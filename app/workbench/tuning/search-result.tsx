"use client";
/** What the search found, beside the machine as it is, and what holds it back. */
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { type HazardRequest, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import type { Searching } from "./use-answers";
import { goalText, knobText, measureLabels, measureText } from "./words";

interface Row {
  what: string;
  before: string;
  found: string;
}

export function SearchResult({
  searched: { question, result },
  knobs,
  system,
  full,
  stale,
  onMake,
}: {
  searched: Extract<Searching, { state: "done" }>;
  knobs: readonly tuning.Knob[];
  system: UnitSystem;
  full: boolean;
  /** Whether the machine has been changed since. */
  stale: boolean;
  onMake: (to: HazardRequest, name: string, note: string) => void;
}) {
  const { best, nearest, present, binds } = result;
  const { goal, limits } = question;
  const found = best ?? nearest;
  const goalSaid = goalText(goal, system);
  const nameOf = (name: string) => knobs.find((knob) => knob.name === name)?.label ?? name;
  const broken = nearest?.breaks.map((measure) => measureLabels[measure].toLowerCase()) ?? [];
  return (
    <div role="region" aria-label="What the search found">
      {stale ? (
        <Notice title="Of earlier numbers">
          <p>The machine has been changed since. Search again.</p>
        </Notice>
      ) : null}
      {best ? (
        <Notice kind="done" title={`Found for ${goalSaid}`} live>
          <p>{holdsBack(binds, Object.keys(limits).length > 0, nameOf)}</p>
        </Notice>
      ) : (
        <Notice kind="problem" title="No machine was found">
          <p>
            {broken.length > 0
              ? `Of the machines that were tried none keeps all the limits. What comes nearest breaks: ${broken.join(", ")}.`
              : nearest
                ? `Nothing in these ranges lands on ${goalSaid}. What comes nearest is below.`
                : "Nothing in these ranges is thrown at all."}{" "}
            Widen a range or a limit, or turn another number. A search can miss what is narrow.
          </p>
        </Notice>
      )}
      {found ? (
        <>
          <Table
            caption={best ? "What was found, beside the revision" : "What comes nearest, beside the revision"}
            rows={rowsOf(found, present, limits, knobs, system)}
            rowKey={({ what }) => what}
            columns={[
              { key: "what", head: "What", rowHead: true, cell: ({ what }) => what },
              { key: "before", head: "Revision", number: true, cell: ({ before }) => before },
              { key: "found", head: "Found", number: true, cell: ({ found: text }) => text },
            ]}
          />
          <p>
            {result.thrown} machines were thrown
            {result.asked > 0 ? `, and the limits of ${result.asked} worked out` : ""}.
          </p>
        </>
      ) : null}
      {best ? (
        <>
          <Caution title="farther is not the aim">
            <p>
              These are the model's numbers for a machine that nobody has built: nothing here was tested, and
              the ranges say nothing of what holds. Every change needs a new hazard sheet and a new look at
              sling, arm, pivot and stop; a throw that goes farther needs a larger keep-out zone. The safety
              officer, local codes and licensed practice decide.
            </p>
          </Caution>
          <p className="button-row">
            <Button
              look="main"
              aria-disabled={full || stale}
              onClick={() => !full && !stale && onMake(best.request, `Tuned: ${goalSaid}`, `${goalSaid}.`)}
            >
              Make this a new revision
            </Button>
          </p>
        </>
      ) : null}
    </div>
  );
}

function holdsBack(
  binds: tuning.TuningResult["binds"],
  limited: boolean,
  nameOf: (name: string) => string,
): string {
  if (binds.length === 0)
    return limited
      ? "No limit stands at its very edge there; one may jump between this machine and a slightly different one."
      : "No end of a range holds it back.";
  const said = binds.map((each) =>
    "limit" in each
      ? `the limit of ${measureLabels[each.limit].toLowerCase()}`
      : `the ${each.end === "low" ? "lower" : "upper"} end of ${nameOf(each.name).toLowerCase()}`,
  );
  return `What holds it back: ${said.join(", ")}.`;
}

function rowsOf(
  found: tuning.Tuned,
  present: tuning.Tuned | null,
  limits: tuning.Limits,
  knobs: readonly tuning.Knob[],
  system: UnitSystem,
): Row[] {
  const turned = knobs
    .filter(({ name }) => name in found.values)
    .map(
      ({ name, label, dimension, present: before }): Row => ({
        what: label,
        before: knobText(before, dimension, system),
        found: knobText(found.values[name] ?? before, dimension, system),
      }),
    );
  const metres = (value: number | null | undefined) =>
    value === null || value === undefined ? "–" : distanceText(value, system);
  const measures = tuning.MEASURES.filter((measure) => found.evaluation[measure] !== null).map(
    (measure): Row => {
      const limit = limits[measure];
      const bound =
        limit === undefined
          ? ""
          : `, ${measure === "armReserve" ? "at least" : "at most"} ${measureText(measure, limit, system)}`;
      return {
        what: `${measureLabels[measure]}${bound}`,
        before: measureText(measure, present?.evaluation[measure] ?? null, system),
        found: measureText(measure, found.evaluation[measure], system),
      };
    },
  );
  return [
    {
      what: "Throw as meant",
      before: metres(present?.evaluation.nominal?.distance),
      found: metres(found.evaluation.nominal?.distance),
    },
    { what: "Ordinary throws scatter by", before: metres(present?.scatter), found: metres(found.scatter) },
    ...turned,
    ...measures,
  ];
}
