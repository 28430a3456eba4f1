"use client";
/** When nobody throws and nobody re-arms: any number of pauses. */
import { Button } from "@/app/_ui/button";
import { instantOf } from "@/app/_ui/clock-fields";
import { TextField } from "@/app/_ui/field";
import styles from "./plan.module.css";

/** As this device's clock shows it; both empty: no pause. */
export interface PauseTexts {
  from: string;
  to: string;
}
export const NO_PAUSE: PauseTexts = { from: "", to: "" };
const MOST = 20;

/** Those that are given, or what is to be put right. */
export function pausesOf(pauses: readonly PauseTexts[]): { from: string; to: string }[] | string {
  const given: { from: string; to: string }[] = [];
  for (const [index, pause] of pauses.entries()) {
    const [from, to] = [instantOf(pause.from), instantOf(pause.to)];
    if (Boolean(from) !== Boolean(to))
      return `Pause ${index + 1}: give both its beginning and its end, or neither.`;
    if (from && to && Date.parse(to) <= Date.parse(from))
      return `Pause ${index + 1}: it ends after it has begun, so give a later end.`;
    if (from && to) given.push({ from, to });
  }
  return given;
}

export function PauseFields({
  pauses,
  onChange,
  errorFor,
}: {
  pauses: readonly PauseTexts[];
  onChange: (pauses: readonly PauseTexts[]) => void;
  errorFor: (field: string) => string | null;
}) {
  const set = (index: number, change: Partial<PauseTexts>) =>
    onChange(pauses.map((pause, at) => (at === index ? { ...pause, ...change } : pause)));
  return (
    <>
      <div className={styles.fields}>
        {pauses.map((pause, index) =>
          (["from", "to"] as const).map((end) => (
            <TextField
              key={`${index} ${end}`}
              id={`order-pause-${end}-${index}`}
              type="datetime-local"
              label={`${pauses.length > 1 ? `Pause ${index + 1}` : "Pause"} ${end}`}
              optional
              value={pause[end]}
              onChange={(event) => set(index, { [end]: event.target.value })}
              error={errorFor(`rules.pauses.${index}.${end}`)}
            />
          )),
        )}
      </div>
      {pauses.length < MOST && <Button onClick={() => onChange([...pauses, NO_PAUSE])}>Another pause</Button>}
    </>
  );
}
