"use client";
/** What came of the rehearsals: how long after each thing that went wrong the range stood still. */
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { RehearsalRun } from "@/lib/api/contracts";
import { PATIENCE } from "@/lib/rehearsal";
import { SURPRISE_WORDS } from "./words";

export function Runs({ runs, playing }: { runs: readonly RehearsalRun[]; playing: boolean }) {
  return (
    <>
      <h2>What came of it</h2>
      <p>
        Nobody is ranked. Talk through every line: who saw it first, what kept them, was the horn heard
        everywhere? A hold that nobody needed is no fault.
      </p>
      {runs.map((run, index) => (
        <section key={run.id} aria-labelledby={`run-${run.id}`}>
          <h3 id={`run-${run.id}`}>
            <LocalTime iso={run.startedAt} day />, {run.turns} {run.turns === 1 ? "turn" : "turns"}
            {run.endedAt === null && (playing && index === 0 ? ", playing" : ", cut off")}
          </h3>
          <Table
            caption={`Rehearsal of ${run.startedAt}`}
            hideCaption
            stacks
            rows={run.cues}
            rowKey={(_, at) => at}
            empty="Nothing has gone wrong yet."
            columns={[
              {
                key: "what",
                head: "What went wrong",
                rowHead: true,
                cell: ({ surprise, machine, post }) => (
                  <>
                    {SURPRISE_WORDS[surprise]} ({surprise === "dead-phone" ? post : machine})
                  </>
                ),
              },
              { key: "after", head: "First hold by a person", cell: firstHold },
              {
                key: "program",
                head: "Hold by the program itself",
                cell: ({ programAfter }) =>
                  programAfter === null ? "none" : `after ${seconds(programAfter)}`,
              },
              {
                key: "others",
                head: "Also called",
                cell: ({ others }) => others.join(", ") || "nobody else",
              },
            ]}
          />
          {run.unprompted > 0 && (
            <p>
              {run.unprompted === 1 ? "One hold was" : `${run.unprompted} holds were`} called while nothing
              was shown. On the day, whoever is in doubt calls.
            </p>
          )}
        </section>
      ))}
    </>
  );
}

const seconds = (value: number): string => `${value.toFixed(1)} s`;

const firstHold = ({ after, by, programAfter }: RehearsalRun["cues"][number]): string => {
  if (after !== null) return `after ${seconds(after)}, by ${by}`;
  return programAfter === null ? `nobody in ${PATIENCE} s` : "nobody before the program did";
};
