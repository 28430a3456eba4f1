"use client";
/** The largest counterweight, pressure or draw with which a machine fits where it is tried. */
import { Button } from "@/app/_ui/button";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { Fit, FitTest, PlacingMachine } from "@/lib/api/contracts";
import { LongAnswer } from "./long-answer";
import styles from "./placing.module.css";
import type { Trial } from "./trial";
import { useAnswer } from "./use-answer";
import { metres, strengthText } from "./words";

export function FitPanel({
  slug,
  machine,
  trial,
  saved,
}: {
  slug: string;
  machine: PlacingMachine;
  trial: Trial | null;
  saved: boolean;
}) {
  const system = useUnits();
  const { asked, ask } = useAnswer<Fit>();
  const answer = asked.state === "answered" ? asked.answer : null;
  const words = (value: number) =>
    answer ? strengthText({ ...answer.strength, title: "" }, value, system).trim() : "";
  const does = ({ fits, blockers, reason }: FitTest) =>
    reason ?? (fits ? "✓ touches nothing" : `✕ ${blockers.map(({ name }) => name).join(", ")}`);
  return (
    <section aria-labelledby="fit">
      <h2 id="fit">The strongest that fits</h2>
      {trial?.pointId && machine.reach ? (
        <>
          <p>
            The largest counterweight, pressure or draw with which {machine.machineName} fits{" "}
            {saved ? "where it stands" : "where it is tried"}, on bearing {bearingText(trial.bearing)}. An
            official sheet is computed for each value, which takes up to a minute; none is kept.
          </p>
          <Button
            aria-disabled={asked.state === "asking" || undefined}
            onClick={() =>
              asked.state !== "asking" &&
              void ask(
                `/api/v1/contests/${slug}/fit?machine=${machine.machineId}&firingPoint=${trial.pointId}&bearing=${trial.bearing}`,
              )
            }
          >
            Find the strongest
          </Button>
        </>
      ) : (
        <p>It is sought for a machine with a hazard sheet at a firing point.</p>
      )}
      <div aria-live="polite" className={styles.answer}>
        <LongAnswer asked={asked} label="The strongest that fits" />
        {answer && (
          <>
            <p>
              {answer.largest ? (
                <>
                  <strong>{strengthText(answer.strength, answer.largest.value, system)}</strong> is the
                  largest of the tested values that fits; {words(answer.strength.declared)} is declared.
                </>
              ) : (
                `None of the tested values fits; ${words(answer.strength.declared)} is declared.`
              )}{" "}
              How far a machine reaches need not fall with its strength: nothing is said of values between.
            </p>
            <Table
              caption="Tested values"
              rows={answer.tested}
              rowKey={({ value }) => value}
              columns={[
                {
                  key: "value",
                  head: answer.strength.title,
                  rowHead: true,
                  cell: ({ value }) => words(value),
                },
                { key: "does", head: "Zone", cell: does },
                {
                  key: "nominal",
                  head: "As meant",
                  number: true,
                  cell: ({ nominal }) => (nominal === null ? "–" : metres(nominal, system)),
                },
                {
                  key: "forward",
                  head: "Zone forward",
                  number: true,
                  cell: ({ forward }) => (forward === null ? "–" : metres(forward, system)),
                },
              ]}
            />
          </>
        )}
      </div>
    </section>
  );
}
