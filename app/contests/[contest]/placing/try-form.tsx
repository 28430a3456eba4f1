"use client";
/** Placing by fields: firing point, bearing by slider, number or steps, and small steps of place. Then saving it. */
import { useRouter } from "next/navigation";
import { useEffect, useState } from "react";
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { QuantityField, quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { bearingText, coordinates } from "@/app/_ui/words";
import { useWrite } from "@/app/_ui/write/use-write";
import type { PlacingMachine } from "@/lib/api/contracts";
import { groundDirect, normalBearing } from "@/lib/earth";
import { formatQuantity } from "@/lib/units";
import styles from "./placing.module.css";
import { type FiringPoint, type Trial, trialAt } from "./trial";

const TURNS = [-5, -1, -0.25, 0.25, 1, 5] as const;
const STEPS = [
  ["Left", -90],
  ["Right", 90],
  ["Ahead", 0],
  ["Back", 180],
] as const;
/** m */
const STEP = 1;

export function TryForm({
  slug,
  machine,
  points,
  trial,
  saved,
  onTry,
}: {
  slug: string;
  machine: PlacingMachine;
  points: readonly FiringPoint[];
  trial: Trial | null;
  saved: boolean;
  onTry: (trial: Trial | null) => void;
}) {
  const system = useUnits();
  const router = useRouter();
  const { write, sending, trouble } = useWrite();
  const [typed, setTyped] = useState(quantityOf(trial?.bearing ?? null, "angle", system));
  const bearing = trial?.bearing ?? 0;
  // What is typed stays as it is typed, as long as it means the bearing that is shown.
  useEffect(() => {
    setTyped((before) =>
      before.value !== null && normalBearing(before.value) === bearing
        ? before
        : quantityOf(bearing, "angle", system),
    );
  }, [bearing, system]);

  const step1 = formatQuantity(STEP, "distance", system, { digits: 0 });
  const turnTo = (next: number) => trial && onTry({ ...trial, bearing: normalBearing(next) });
  const step = (aside: number) => {
    if (!trial) return;
    const { latitude, longitude } = groundDirect(trial.stand, bearing + aside, STEP, trial.stand.height);
    onTry({ ...trial, pointId: null, stand: { ...trial.stand, latitude, longitude } });
  };
  const save = async () => {
    if (!trial?.pointId) return;
    const url = `/api/v1/contests/${slug}/machines/${machine.machineId}/placement`;
    const sent = await write("PATCH", url, { firingPointId: trial.pointId, bearing: trial.bearing });
    if (!sent.ok) return;
    router.refresh();
  };
  return (
    <section aria-label={`Place ${machine.machineName}`}>
      <SelectField
        id="try-point"
        label="Firing point"
        value={trial?.pointId ?? ""}
        onChange={(event) => {
          const point = points.find(({ id }) => id === event.target.value);
          if (point) onTry(trialAt(point, bearing));
        }}
        choices={[
          ...(trial?.pointId
            ? []
            : [{ value: "", label: trial ? "Between the firing points" : "Not on the firing line" }]),
          ...points.map(({ id, number, name }) => ({ value: id, label: `${number} ${name}`.trim() })),
        ]}
      />
      {trial && (
        <>
          <div className="field">
            <label htmlFor="try-slider">Bearing, by slider: {bearingText(bearing)}</label>
            <input
              id="try-slider"
              className={styles.slider}
              type="range"
              min={0}
              max={359.75}
              step={0.25}
              value={bearing}
              aria-valuetext={bearingText(bearing)}
              onChange={(event) => turnTo(Number(event.target.value))}
            />
          </div>
          <div className={styles.steps} role="group" aria-label="Turn by degrees">
            {TURNS.map((turn) => (
              <Button key={turn} onClick={() => turnTo(bearing + turn)}>
                {turn < 0 ? "−" : "+"}
                {Math.abs(turn)}°
              </Button>
            ))}
          </div>
          <QuantityField
            id="try-bearing"
            label="Bearing"
            fieldName="Bearing"
            dimension="angle"
            quantity={typed}
            onChange={(next) => {
              setTyped(next);
              if (next.value !== null) turnTo(next.value);
            }}
            help="Degrees from true north on which it throws."
          />
          <div className={`${styles.steps} ${styles.two}`} role="group" aria-label={`Move by ${step1}`}>
            {STEPS.map(([word, aside]) => (
              <Button key={word} onClick={() => step(aside)}>
                {word} {step1}
              </Button>
            ))}
          </div>
        </>
      )}
      {trial && !trial.pointId && (
        <p>
          There is no firing point here ({coordinates(trial.stand)}). To place it here the organiser lays one
          out first, on the site page.
        </p>
      )}
      {trouble && (
        <Notice kind="problem">
          <p>{trouble}</p>
        </Notice>
      )}
      <p className={styles.state}>{trial && (saved ? "As saved." : "Not saved.")}</p>
      <div className="button-row">
        <Button
          look="main"
          aria-disabled={saved || !trial?.pointId || sending || undefined}
          onClick={() => !saved && !sending && void save()}
        >
          {sending ? "Sending…" : "Save this place"}
        </Button>
        {!saved && <Button onClick={() => onTry(null)}>Back to what is saved</Button>}
      </div>
    </section>
  );
}
