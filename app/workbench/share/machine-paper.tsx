"use client";
/** The machine on two pages: drawn with its numbers; what it would do at these. */
import { useMemo } from "react";
import { SheetCautions } from "@/app/_ui/hazard-sheet";
import { DeclaredTable } from "@/app/_ui/hazard-sheet/declared";
import { ThrowTable } from "@/app/_ui/hazard-sheet/throw-table";
import { arrange, drawnMachine, numbersBeside, placeAll } from "@/app/_ui/machine-form/drawing/drawn";
import { MachinePicture } from "@/app/_ui/machine-form/drawing/machine-picture";
import { FlightView } from "@/app/_ui/throw-pictures/flight-view";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { useUnits } from "@/app/_ui/units";
import { machineKind } from "@/lib/throw";
import { useBench } from "../bench/use-bench";
import styles from "./machine-paper.module.css";

/** Of the drawing on paper, px. */
const WIDTH = 680;

export function MachinePaper() {
  const system = useUnits();
  const { bench, revision, reading, loaded } = useBench();
  const { form } = revision;
  const { preview, request } = usePreview(loaded && reading.ok ? reading.request : null);
  const arrangement = useMemo(() => arrange(form), [form]);
  const { drawing, projection, placed } = useMemo(() => placeAll(drawnMachine(form), WIDTH), [form]);
  if (!reading.ok) return null;
  const title = machineKind(form.kind).title;
  const heading = [bench.name, revision.name].filter(Boolean).join(": ");
  return (
    <div className={styles.paper}>
      <section className={styles.sheet} aria-label="First page: the machine">
        <h2>{heading}</h2>
        <p>
          {title}. {revision.note}
        </p>
        <MachinePicture
          drawing={drawing}
          projection={projection}
          placed={placed.filter(({ mark: { parameter } }) => parameter in arrangement.letters)}
          letters={arrangement.letters}
          numbers={numbersBeside(form)}
          active={null}
          diameter={reading.request.projectile.diameter}
          system={system}
          title={title}
        />
        <DeclaredTable declaration={reading.request} system={system} />
      </section>
      <section className={styles.sheet} aria-label="Second page: what it would do">
        <h2>{heading}: what it would do at these numbers</h2>
        <p>
          Computed in a browser at the declared numbers, without tolerances and without margins. It is no
          hazard sheet and clears nothing: nobody stands by these distances.
        </p>
        {preview && request ? (
          <>
            <ThrowTable throws={preview} system={system} caption="Throws at the declared numbers" />
            <FlightView preview={preview} terrain={request.terrain} system={system} />
          </>
        ) : (
          <p>Being computed…</p>
        )}
        <SheetCautions />
        <p className={styles.sign}>
          Measured and checked by (a post or role), on: ______________________________
        </p>
      </section>
    </div>
  );
}
