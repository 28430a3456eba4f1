"use client";
/** An inspection under way: its lines one by one, what is measured, and what comes out. */
import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { bestOutcome, knownOf, linesFor, offDeclared, stoodOn } from "@/lib/inspection";
import type { Loads } from "@/lib/throw";
import {
  EMPTY,
  type InspectedRevision,
  type InspectionDraft,
  loadInspection,
  saveInspection,
  stateOf,
} from "./draft";
import { InspectLines } from "./inspect-lines";
import { MeasureList } from "./measure-list";
import { OutcomeForm } from "./outcome-form";

export function InspectDesk({
  slug,
  machineId,
  revision,
  loads,
  back,
}: {
  slug: string;
  machineId: string;
  revision: InspectedRevision;
  /** Of its current sheet, to be shown beside the lines. */
  loads: Loads | null;
  /** Where the inspection is to be read once it is written down. */
  back: string;
}) {
  const router = useRouter();
  const system = useUnits();
  const [draft, setDraft] = useState<InspectionDraft>(EMPTY);
  // What this device keeps is known only to the browser.
  useEffect(() => setDraft(loadInspection(slug, machineId)), [slug, machineId]);
  const change = (part: Partial<InspectionDraft>) =>
    setDraft((before) => {
      const next = { ...before, ...part };
      saveInspection(slug, machineId, next);
      return next;
    });

  const { declaration } = revision;
  const known = { ...knownOf(declaration, null), loads };
  const lines = linesFor(declaration.machine).map((line) => ({
    line,
    numbers: line.figures(known),
    state: stateOf(line, draft.answers[line.id], declaration),
  }));
  const measured = Object.entries(draft.measured).flatMap(([path, { value }]) =>
    value === null ? [] : [{ path, value }],
  );
  const off = offDeclared(declaration, measured);
  const found = lines.flatMap(({ line: { id }, state: { finding, note } }) =>
    finding ? [{ id, finding, note: note.trim() }] : [],
  );
  const open = lines.filter(({ state }) => !state.settled).length;
  const changed = lines.filter(({ state }) => state.changed).length;
  return (
    <>
      <p role="status">
        Revision {revision.number}: {lines.length - open} of {lines.length} lines done
        {open > 0 && `, ${open} open`}.
      </p>
      {changed > 0 && (
        <Notice title="The machine was changed since you looked">
          <p>
            {changed === 1 ? "One line stands" : `${changed} lines stand`} on numbers that are others in
            revision {revision.number}: look again. The rest of this inspection goes on.
          </p>
        </Notice>
      )}
      <Caution kind="mandatory" title="pin in the trigger, nothing loaded, nobody under the arm">
        <p>
          Inspect a machine only while nothing in it is drawn or raised. Whoever built it stands by and moves
          its parts.
        </p>
      </Caution>
      <h2>Lines</h2>
      <InspectLines
        lines={lines}
        system={system}
        onAnswer={(line, finding, note) => {
          // A note alone says nothing of the numbers: what fell stays so until somebody taps.
          const stood =
            finding === null ? (draft.answers[line.id]?.stood ?? {}) : stoodOn(declaration, line.standsOn);
          const kept = finding ?? draft.answers[line.id]?.finding ?? null;
          change({ answers: { ...draft.answers, [line.id]: { finding: kept, note, stood } } });
        }}
      />
      <h2>Measured beside declared</h2>
      <MeasureList
        slug={slug}
        machineId={machineId}
        revision={revision}
        measured={draft.measured}
        off={off}
        onMeasure={(path, quantity) => change({ measured: { ...draft.measured, [path]: quantity } })}
        onRevised={() => router.refresh()}
      />
      <h2>What comes out</h2>
      <OutcomeForm
        url={`/api/v1/contests/${slug}/machines/${machineId}/inspections`}
        draft={draft}
        onChange={change}
        best={bestOutcome(found, off)}
        open={open}
        body={{ revisionId: revision.id, lines: found, measured }}
        onDone={() => {
          saveInspection(slug, machineId, null);
          router.push(back);
          router.refresh();
        }}
      />
    </>
  );
}
