"use client";
/** The search for the best: what for, over which numbers, within which limits. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { ChoiceTiles } from "@/app/_ui/choice-tiles";
import { Notice } from "@/app/_ui/notice";
import { type Quantity, QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import type { HazardRequest, tuning } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import { LimitFields, type LimitTexts, limitsIn } from "./limit-fields";
import type { Answers } from "./questions";
import { RangeFields, type RangeTexts, rangesIn } from "./range-fields";
import { SearchResult } from "./search-result";
import styles from "./tuning.module.css";
import { useSearch } from "./use-answers";

const EMPTY: Quantity = { text: "", value: null };

type Aim = "farthest" | "steadiest" | "gentlest";

const aims: readonly { value: Aim; label: string; note: string }[] = [
  { value: "farthest", label: "Throw farthest", note: "The farthest throw as meant." },
  { value: "steadiest", label: "Hit a mark, steadily", note: "The machine that scatters least by its ±." },
  {
    value: "gentlest",
    label: "Hit a mark, gently",
    note: "The least pull in the sling; without one the least speed.",
  },
];

export function SearchSection({
  measured,
  knobs,
  request,
  system,
  full,
  made,
  onMake,
}: {
  /** Of the revision as it is; null until it is known. */
  measured: Answers["measures"] | null;
  knobs: readonly tuning.Knob[];
  request: HazardRequest;
  system: UnitSystem;
  full: boolean;
  /** How the note of a revision made here begins. */
  made: string;
  onMake: (to: HazardRequest, name: string, note: string) => void;
}) {
  const tuned = knobs.filter(({ tunes }) => tunes);
  const [aim, setAim] = useState<Aim>("farthest");
  const [mark, setMark] = useState<Quantity>(EMPTY);
  const [ranges, setRanges] = useState<RangeTexts>(() =>
    Object.fromEntries(
      tuned
        .slice(0, 2)
        .map(({ name, low, high, dimension }) => [
          name,
          { low: quantityOf(low, dimension, system), high: quantityOf(high, dimension, system) },
        ]),
    ),
  );
  const [limits, setLimits] = useState<LimitTexts>({});
  const [problems, setProblems] = useState<readonly string[]>([]);
  const { searching, start, stop } = useSearch();
  const running = searching.state === "running";

  const begin = () => {
    const vary = rangesIn(request, tuned, ranges, system);
    const within = limitsIn(limits, measured?.usual ?? {}, system);
    const problems = [...vary.problems, ...within.problems];
    if (aim !== "farthest" && !(mark.value && mark.value > 0))
      problems.unshift("Distance of the mark: enter how far ahead of the firing point it is, such as 120 m.");
    setProblems(problems);
    if (problems.length > 0) return;
    const goal: tuning.Goal =
      aim === "farthest" ? { kind: "farthest" } : { kind: "mark", distance: mark.value ?? 0, prefer: aim };
    start({ ask: "tune", request, goal, vary: vary.ranges, limits: within.limits });
  };

  return (
    <section aria-labelledby="search-title" className="no-print">
      <h2 id="search-title">Let it search</h2>
      <p>
        It starts from the revision as it is, not from the sliders. It looks everywhere in the ranges first,
        then more closely where the limits are kept.
      </p>
      <ChoiceTiles id="tuning-aim" legend="What for" choices={aims} value={aim} onChange={setAim} />
      {aim === "farthest" ? null : (
        <QuantityField
          id="tuning-mark"
          label="Distance of the mark"
          fieldName="Distance of the mark"
          dimension="distance"
          help="Ahead of the firing point, along the bearing."
          quantity={mark}
          onChange={setMark}
        />
      )}
      <RangeFields knobs={tuned} texts={ranges} onChange={setRanges} system={system} />
      <LimitFields texts={limits} onChange={setLimits} measured={measured} system={system} />
      {problems.length > 0 ? (
        <Notice kind="problem" title="Not searched yet">
          <ul>
            {problems.map((problem) => (
              <li key={problem}>{problem}</li>
            ))}
          </ul>
        </Notice>
      ) : null}
      <p className="button-row">
        <Button look="main" aria-disabled={running} onClick={() => !running && begin()}>
          Search
        </Button>
        {running ? <Button onClick={stop}>Stop the search</Button> : null}
      </p>
      {running ? (
        <p className={styles.progress}>
          <label htmlFor="tuning-progress">Searching; a phone may need a minute</label>
          <progress id="tuning-progress" max={1} value={searching.progress} />
        </p>
      ) : null}
      <div role="status">{searching.state === "stopped" ? <p>Stopped: nothing was found out.</p> : null}</div>
      {searching.state === "failed" ? (
        <Notice kind="problem" title="The search failed">
          <p>{searching.failure}</p>
        </Notice>
      ) : null}
      {searching.state === "done" ? (
        <SearchResult
          searched={searching}
          knobs={knobs}
          system={system}
          full={full}
          stale={JSON.stringify(searching.question.request) !== JSON.stringify(request)}
          onMake={(to, name, note) => onMake(to, name, `${made}${note}`)}
        />
      ) : null}
    </section>
  );
}
