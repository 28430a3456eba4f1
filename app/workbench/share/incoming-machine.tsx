"use client";
/** A machine in a file: what would come in, what would not, and where it is to go. */
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { useUnits } from "@/app/_ui/units";
import { machineKind } from "@/lib/throw";
import { useReceived } from "../alarm/use-received";
import { carriedText } from "../alarm/words";
import { type BenchAction, benchToText, changeBench, MOST_REVISIONS, roomOn } from "../bench/bench";
import { newRevisionId, useBench } from "../bench/use-bench";
import type { MachineRead } from "./read-machine";
import type { Remark } from "./remarks";
import type { Taken } from "./taken";

/** More help nobody. */
const MOST_REMARKS = 25;

export function IncomingMachine({
  name: file,
  read,
  onTaken,
  onLeave,
}: {
  /** Of the file. */
  name: string;
  read: MachineRead;
  onTaken: (taken: Taken) => void;
  onLeave: () => void;
}) {
  const system = useUnits();
  const { bench, change } = useBench();
  const { name, revisions, stops, notes } = read;
  const { receive } = useReceived();
  const room = roomOn(bench);
  const fits = revisions.length <= room;
  const take = (way: "add" | "replace") => {
    const own = revisions.map(({ remarks: _, ...revision }) => ({ ...revision, id: newRevisionId() }));
    const chosen = own[read.chosen]?.id ?? "";
    const action: BenchAction =
      way === "add"
        ? { do: "add", revisions: own, chosen }
        : { do: "replace", bench: { name, revisions: own, chosen } };
    const units: BenchAction = { do: "units", system };
    change(action);
    change(units);
    const brought = receive(stops, file);
    onTaken({
      title: way === "add" ? `${file} is beside what was here` : `${file} is on the bench`,
      words: `${count(own.length)} came in; “${own[read.chosen]?.name}” is the one being worked on.${way === "add" ? "" : ` It took the place of ${count(bench.revisions.length)}.`} It can be undone until this page is reloaded or closed.`,
      back: {
        of: "bench",
        before: bench,
        after: benchToText([action, units].reduce(changeBench, bench)),
        stops: brought,
      },
    });
  };
  const strange = notes.length + revisions.reduce((sum, { remarks }) => sum + remarks.length, 0);
  return (
    <>
      <p>
        {name ? `Machine “${name}”` : "A machine without a name"}, {count(revisions.length)}.{" "}
        {strange === 0
          ? "All of it is understood."
          : "Not all of it comes in as it stands: see below what becomes of each."}
      </p>
      {notes.length > 0 && (
        <ul>
          {notes.map((note) => (
            <li key={note}>{note}</li>
          ))}
        </ul>
      )}
      {stops.length > 0 && (
        <Caution kind="prohibition" title="throw this machine: STOP comes with it">
          <ul>
            {stops.map((each) => (
              <li key={each.throw}>{carriedText(each, system)}.</li>
            ))}
          </ul>
          <p>Nobody had answered it when the file was saved. It stands here too until somebody does.</p>
        </Caution>
      )}
      <ol>
        {revisions.map(({ name, note, form, remarks }, index) => (
          <li key={index}>
            <strong>{name}</strong>: {machineKind(form.kind).title}. {note}
            <Remarks remarks={remarks} />
          </li>
        ))}
      </ol>
      <p>
        On the bench now: {bench.name ? `“${bench.name}”, ` : ""}
        {count(bench.revisions.length)}. Added beside {bench.revisions.length === 1 ? "it" : "them"}, the
        bench keeps its own name.
      </p>
      {!fits && (
        <p>
          There is no room beside them: the bench holds {MOST_REVISIONS} revisions. Take some off on the page
          Machine first, or save the bench and replace it.
        </p>
      )}
      <p className="button-row">
        <Button look="main" aria-disabled={!fits} onClick={() => fits && take("add")}>
          Add beside what is here
        </Button>
        <Button onClick={() => take("replace")}>Replace what is here</Button>
        <Button onClick={onLeave}>Leave it</Button>
      </p>
    </>
  );
}

function Remarks({ remarks }: { remarks: readonly Remark[] }) {
  if (remarks.length === 0) return null;
  return (
    <ul>
      {remarks.slice(0, MOST_REMARKS).map(({ field, becomes }) => (
        <li key={`${field} ${becomes}`}>
          {field}: {becomes}
        </li>
      ))}
      {remarks.length > MOST_REMARKS && (
        <li>{remarks.length - MOST_REMARKS} more fields are like these: the file is hardly one of ours.</li>
      )}
    </ul>
  );
}

const count = (revisions: number) => (revisions === 1 ? "1 revision" : `${revisions} revisions`);
