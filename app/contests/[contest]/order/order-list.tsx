"use client";
/** Every turn of the day, round by round. */
import Link from "next/link";
import type { ReactNode } from "react";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { TurnInfo } from "@/lib/api/contracts";
import styles from "./order.module.css";
import { shiftText } from "./words";

interface Shown {
  own: string | null;
  slug: string;
  upId: string | null;
  /** What may be done with a turn. */
  more?: (turn: TurnInfo) => ReactNode;
}

/** What is to come first; rounds that are over are folded away below. */
export function OrderList({ turns, ...shown }: Shown & { turns: readonly TurnInfo[] }) {
  const stages = [...new Set(turns.map(({ stage }) => stage))].map((stage) => {
    const here = turns.filter((turn) => turn.stage === stage);
    return { stage, here, thrown: here.filter(({ state }) => state === "thrown").length };
  });
  const isOver = ({ here }: { here: readonly TurnInfo[] }) => here.every(({ state }) => state !== "to-throw");
  return (
    <>
      {stages
        .filter((round) => !isOver(round))
        .map(({ stage, here, thrown }) => (
          <section key={stage}>
            <h2>
              Round {stage}
              {thrown > 0 && `, ${thrown} of ${here.length} thrown`}
            </h2>
            <RoundTable stage={stage} turns={here} over={false} {...shown} />
          </section>
        ))}
      {stages.filter(isOver).map(({ stage, here }) => (
        <details key={stage} className={styles.over}>
          <summary>Round {stage}, thrown</summary>
          <RoundTable stage={stage} turns={here} over {...shown} />
        </details>
      ))}
    </>
  );
}

function RoundTable({
  stage,
  turns,
  over,
  own,
  slug,
  upId,
  more,
}: Shown & { stage: number; turns: readonly TurnInfo[]; over: boolean }) {
  return (
    <Table
      caption={`Turns of round ${stage}`}
      hideCaption
      stacks
      rows={turns}
      rowKey={({ shotId, machineId, round }) => `${shotId} ${machineId} ${round}`}
      columns={[
        {
          key: "team",
          head: "Team",
          rowHead: true,
          cell: (turn) => (
            <>
              {turn.place}.{" "}
              <Link href={`/contests/${slug}/shots/${turn.shotId}`} prefetch={false}>
                {turn.entrantNumber} {turn.entrantName}
              </Link>
              {turn.entrantId === own && <strong className={styles.mine}>Yours</strong>}
              {turn.round !== stage && ` (makes up for round ${turn.round})`}
            </>
          ),
        },
        {
          key: "machine",
          head: "Machine",
          cell: ({ machineName, firingPointNumber }) => `${machineName}, firing point ${firingPointNumber}`,
        },
        { key: "when", head: "When", cell: (turn) => <When turn={turn} up={turn.shotId === upId} /> },
        ...(over
          ? []
          : [
              {
                key: "stops",
                head: "Step back for it",
                cell: ({ stops, state }: TurnInfo) =>
                  state === "to-throw" && stops.length > 0 ? stops.join(", ") : "–",
              },
              ...(more ? [{ key: "more", head: "Change", cell: more }] : []),
            ]),
      ]}
    />
  );
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
      {turn.permitted === false && ", ✗ no firing permit stands"}
      {turn.passedOver && ` (moved: ${turn.passedOver})`}
    </>
  );
}
