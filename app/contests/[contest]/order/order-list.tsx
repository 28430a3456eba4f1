"use client";
/** Every turn of the day, round by round. */
import Link from "next/link";
import type { ReactNode } from "react";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { TurnInfo } from "@/lib/api/contracts";
import styles from "./order.module.css";
import { shiftText } from "./words";

export function OrderList({
  turns,
  upId,
  own,
  slug,
  more,
}: {
  turns: readonly TurnInfo[];
  upId: string | null;
  own: string | null;
  slug: string;
  /** What may be done with a turn. */
  more?: (turn: TurnInfo) => ReactNode;
}) {
  const stages = [...new Set(turns.map(({ stage }) => stage))];
  return stages.map((stage) => {
    const here = turns.filter((turn) => turn.stage === stage);
    const thrown = here.filter(({ state }) => state === "thrown").length;
    return (
      <section key={stage}>
        <h2>
          Round {stage}
          {thrown > 0 && (thrown === here.length ? ", thrown" : `, ${thrown} of ${here.length} thrown`)}
        </h2>
        <Table
          caption={`Turns of round ${stage}`}
          hideCaption
          stacks
          rows={here}
          rowKey={({ shotId, machineId, round }) => `${shotId} ${machineId} ${round}`}
          columns={[
            {
              key: "team",
              head: "Team",
              rowHead: true,
              cell: (turn) => (
                <>
                  {turn.place}.{" "}
                  {turn.shotId === "new" ? (
                    `${turn.entrantNumber} ${turn.entrantName}`
                  ) : (
                    <Link href={`/contests/${slug}/shots/${turn.shotId}`} prefetch={false}>
                      {turn.entrantNumber} {turn.entrantName}
                    </Link>
                  )}
                  {turn.entrantId === own && <strong className={styles.mine}>Yours</strong>}
                  {turn.round !== stage && ` (makes up for round ${turn.round})`}
                </>
              ),
            },
            {
              key: "machine",
              head: "Machine",
              cell: ({ machineName, firingPointNumber }) =>
                `${machineName}, firing point ${firingPointNumber}`,
            },
            { key: "when", head: "When", cell: (turn) => <When turn={turn} up={turn.shotId === upId} /> },
            {
              key: "stops",
              head: "Step back for it",
              cell: ({ stops, state }) => (state === "to-throw" && stops.length > 0 ? stops.join(", ") : "–"),
            },
            ...(more ? [{ key: "more", head: "Change", cell: more }] : []),
          ]}
        />
      </section>
    );
  });
}

function When({ turn, up }: { turn: TurnInfo; up: boolean }) {
  if (turn.state === "out") return "out, by a ruling";
  if (turn.thrownAt)
    return (
      <>
        thrown <LocalTime iso={turn.thrownAt} />
      </>
    );
  const shift = shiftText(turn);
  return (
    <>
      {up && <strong>up now, </strong>}
      {turn.expectedAt ? (
        <>
          about <LocalTime iso={turn.expectedAt} />
        </>
      ) : (
        "not planned"
      )}
      {shift && `, ${shift}`}
      {turn.passedOver && ` (moved: ${turn.passedOver})`}
    </>
  );
}
