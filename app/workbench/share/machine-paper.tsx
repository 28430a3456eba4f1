"use client";
/** The machine on two pages: drawn with its numbers; what it would do at these. */
import { useEffect, useMemo, useState } from "react";
import { SheetCautions } from "@/app/_ui/hazard-sheet";
import { DeclaredTable } from "@/app/_ui/hazard-sheet/declared";
import { ThrowTable } from "@/app/_ui/hazard-sheet/throw-table";
import { arrange, drawnMachine, numbersBeside, placeAll } from "@/app/_ui/machine-form/drawing/drawn";
import { MachinePicture } from "@/app/_ui/machine-form/drawing/machine-picture";
import { quantityAt } from "@/app/_ui/machine-form/form/state";
import { FlightView } from "@/app/_ui/throw-pictures/flight-view";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { useUnits } from "@/app/_ui/units";
import { machineKind } from "@/lib/throw";
import { StopLine } from "../alarm/stop-line";
import { useAlarm } from "../alarm/use-alarm";
import { useBench } from "../bench/use-bench";
import styles from "./machine-paper.module.css";
import { PaperConditions } from "./paper-conditions";

/** Of the drawing on paper, px. */
const WIDTH = 680;

export function MachinePaper() {
  const system = useUnits();
  const { bench, revision, reading, loaded } = useBench();
  const { signs, received } = useAlarm();
  const { form } = revision;
  const { preview, request } = usePreview(loaded && reading.ok ? reading.request : null);
  const arrangement = useMemo(() => arrange(form), [form]);
  const { drawing, projection, placed } = useMemo(() => placeAll(drawnMachine(form), WIDTH), [form]);
  const numbers = numbersBeside(form);
  const told = (parameter: string) =>
    parameter in arrangement.letters &&
    parameter in numbers &&
    quantityAt(form, `machine.${parameter}`).value !== 0;
  // A letter without a number, or at what most machines leave at nothing, says nothing on paper.
  const shown = placed.filter(({ mark: { parameter } }) => told(parameter));
  const letters = Object.fromEntries(Object.entries(arrangement.letters).filter(([name]) => told(name)));
  const day = useDayOfPrint();
  // Browsers and the server differ in the last bit of a sine, and so in where they put a line.
  if (!loaded || !reading.ok) return null;
  const title = machineKind(form.kind).title;
  const heading = [bench.name, revision.name].filter(Boolean).join(": ");
  const head = (
    <p className={styles.head}>
      {title}. {day && `Printed on ${day}. `}
      <span className={styles.note}>{revision.note}</span>
    </p>
  );
  return (
    <div className={signs.length + received.length > 0 ? styles.belowStop : undefined}>
      <section className={styles.sheet} aria-label="First page: the machine">
        <h2>{heading}</h2>
        {head}
        <MachinePicture
          drawing={drawing}
          projection={projection}
          placed={shown}
          letters={letters}
          numbers={numbers}
          active={null}
          diameter={reading.request.projectile.diameter}
          system={system}
          title={title}
        />
        <div className={styles.rows}>
          <DeclaredTable declaration={reading.request} system={system} letters={letters} />
        </div>
      </section>
      <section className={styles.sheet} aria-label="Second page: what it would do">
        <h2>{heading}: what it would do at these numbers</h2>
        <StopLine />
        {head}
        <p>
          Computed in a browser at the declared numbers, without tolerances and without margins. It is no
          hazard sheet and clears nothing: nobody stands by these distances.
        </p>
        {preview && request ? (
          <>
            <ThrowTable throws={preview} system={system} caption="Throws at the declared numbers" />
            <div className={styles.rows}>
              <PaperConditions request={request} system={system} />
            </div>
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

/** The day on this device, as it prints; known only in the browser. */
function useDayOfPrint(): string | null {
  const [day, setDay] = useState<string | null>(null);
  useEffect(() => {
    const look = () => setDay(new Date().toLocaleDateString("en-GB", { dateStyle: "long" }));
    look();
    addEventListener("beforeprint", look);
    return () => removeEventListener("beforeprint", look);
  }, []);
  return day;
}
