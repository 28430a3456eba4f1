"use client";
/** Sliders, what they throw, the curve of one number, what a step of each does, and the search for the best. */
import Link from "next/link";
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { type HazardRequest, tuning } from "@/lib/throw";
import { MOST_REVISIONS } from "../bench/bench";
import { newRevisionId, useBench } from "../bench/use-bench";
import { CurveSection } from "./curve-section";
import { KnobSlider } from "./knob-slider";
import { SearchSection } from "./search-section";
import { StepsSection } from "./steps-section";
import { TrialStrip } from "./trial-strip";
import styles from "./tuning.module.css";
import { asRevision, type Turned, valuesOf } from "./turned";
import { useAsker, useNewest } from "./use-answers";

export function TuningDesk() {
  const { bench, revision, reading, change, loaded } = useBench();
  return (
    <div className="calculator">
      <div className={styles.revision}>
        <SelectField
          id="tuning-revision"
          label="Revision"
          help={
            <>
              Its numbers are entered on the page <Link href="/workbench">Machine</Link>.
            </>
          }
          value={revision.id}
          onChange={(event) => change({ do: "choose", id: event.target.value })}
          choices={bench.revisions.map((each, index) => ({
            value: each.id,
            label: `${index + 1}. ${each.name || "without a name"}`,
          }))}
        />
      </div>
      {loaded && !reading.ok ? (
        <Notice kind="problem" title="Nothing to tune yet: the machine's numbers are not complete">
          <ErrorList errors={reading.errors} form={revision.form} />
          <p>
            <Link href="/workbench">Correct them on the page Machine.</Link>
          </p>
        </Notice>
      ) : null}
      {loaded && reading.ok ? <Tuning key={revision.id} request={reading.request} /> : null}
    </div>
  );
}

function Tuning({ request: given }: { request: HazardRequest }) {
  const system = useUnits();
  const { bench, revision, change } = useBench();
  // By value: a name that is typed changes no machine.
  const key = JSON.stringify(given);
  const request = useMemo((): HazardRequest => JSON.parse(key), [key]);
  const knobs = useMemo(() => tuning.knobsOf(request), [request]);
  const [turned, setTurned] = useState<Turned>({});
  const trial = useMemo(() => tuning.withValues(request, valuesOf(turned)), [request, turned]);
  const asker = useAsker();
  const measured = useNewest(asker, { ask: "measures", request }).answer;
  const touched = Object.keys(turned).length > 0;
  const full = bench.revisions.length >= MOST_REVISIONS;

  const make = (to: HazardRequest, name: string, note: string) => {
    if (full) return;
    for (const action of asRevision(request, to, { id: newRevisionId(), name, note }, system)) change(action);
    // The new revision is chosen, and what stood under the thumb is gone with the earlier one.
    document.getElementById("tuning-revision")?.focus();
  };

  return (
    <>
      {revision.note.startsWith(MADE) ? (
        <Notice kind="done" title={`This is the revision “${revision.name}”`} live>
          <p>
            It came from tuning. A throw that goes farther, or a machine that pulls harder, needs a new hazard
            sheet and a new look at its strength before it throws.
          </p>
        </Notice>
      ) : null}
      <section aria-labelledby="sliders-title" className="no-print">
        <h2 id="sliders-title">Turn it</h2>
        <p>The revision itself stays as it is until you make a new one of it.</p>
        <TrialStrip revision={measured?.evaluation ?? null} trial={trial} system={system} />
        <div className={styles.knobs}>
          {knobs
            .filter(({ tunes }) => tunes)
            .map((knob) => (
              <KnobSlider
                key={knob.name}
                knob={knob}
                system={system}
                quantity={turned[knob.name]}
                onChange={(quantity) =>
                  setTurned(({ [knob.name]: _, ...others }) =>
                    quantity ? { ...others, [knob.name]: quantity } : others,
                  )
                }
              />
            ))}
        </div>
        <p className="button-row">
          <Button aria-disabled={!touched} onClick={() => touched && setTurned({})}>
            Back to the revision's numbers
          </Button>
          <Button
            aria-disabled={!touched || full}
            onClick={() => touched && make(trial, `${revision.name}, turned`, `${MADE}turned by hand.`)}
          >
            Make this a new revision
          </Button>
        </p>
        {full ? <p>{MOST_REVISIONS} revisions are as many as the bench holds: take one off first.</p> : null}
      </section>
      <CurveSection asker={asker} knobs={knobs} request={request} trial={trial} system={system} />
      <StepsSection asker={asker} trial={trial} system={system} />
      <SearchSection
        measured={measured}
        knobs={knobs}
        request={request}
        system={system}
        full={full}
        onMake={make}
        made={MADE}
      />
    </>
  );
}

/** How the note of a revision begins that was made here. */
const MADE = "Tuning: ";
