"use client";
/** What planning anew would come to, beside the order as it is and a plain rota. */
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import type { OrderFigures, OrderProposal } from "@/lib/api/contracts";
import { lastingText, shiftText } from "../../order/words";

export function ProposalPanel({ told }: { told: OrderProposal }) {
  const { proposed, unchanged, rota, bound, fairWait, assumed, turns } = told;
  const ways: { name: string; figures: OrderFigures }[] = [
    { name: "Planned", figures: proposed },
    ...(unchanged ? [{ name: "Order as it is", figures: unchanged }] : []),
    { name: "Plain rota", figures: rota },
  ];
  const beyond = Math.round((Date.parse(proposed.end) - Date.parse(bound)) / 1000);
  const changed = turns.filter((turn) => turn.toldAt !== null && shiftText(turn) !== null);
  const next = turns.filter(({ state }) => state === "to-throw").slice(0, 6);
  return (
    <>
      <h3>What it would come to</h3>
      <Table
        caption="Ways to throw the rest of the day"
        stacks
        rows={ways}
        rowKey={({ name }) => name}
        columns={[
          { key: "way", head: "Order", rowHead: true, cell: ({ name }) => name },
          { key: "end", head: "Ends", cell: ({ figures }) => <LocalTime iso={figures.end} day /> },
          { key: "wait", head: "Longest wait", cell: ({ figures }) => lastingText(figures.longestWait) },
          {
            key: "fair",
            head: "Nobody waits too long",
            cell: ({ figures }) =>
              figures.unfair < 1 ? "yes" : `no, ${lastingText(figures.unfair)} too much in all`,
          },
          {
            key: "rotates",
            head: "Rotates",
            cell: ({ figures }) => (figures.unrotated < 0.005 ? "yes" : "no"),
          },
          { key: "moved", head: "Places moved", number: true, cell: ({ figures }) => figures.moved },
        ]}
      />
      <p>
        A wait is fair up to {lastingText(fairWait)}. No order of these turns ends before{" "}
        <LocalTime iso={bound} day />: this one is{" "}
        {beyond < 30 ? "as short as can be" : `${lastingText(beyond)} from that`}.
      </p>
      {assumed.length > 0 && (
        <ul>
          {assumed.map((words) => (
            <li key={words}>{words}</li>
          ))}
        </ul>
      )}
      <p>
        {unchanged &&
          (changed.length === 0
            ? "No turn begins more than five minutes from what people were told. "
            : `${changed.length} ${changed.length === 1 ? "turn begins" : "turns begin"} more than five minutes from what people were told: ${changed
                .slice(0, 6)
                .map(
                  (turn) =>
                    `${turn.entrantNumber} ${turn.entrantName} (round ${turn.round}, ${shiftText(turn)})`,
                )
                .join("; ")}${changed.length > 6 ? " and more" : ""}. `)}
        First come:{" "}
        {next.map(({ entrantNumber, entrantName }) => `${entrantNumber} ${entrantName}`).join(", ")}.
      </p>
    </>
  );
}
