"use client";
/** The stand-clear list of the machine that fires, to tick off by thumb. */
import type { RangeView } from "@/lib/api/contracts";
import styles from "./range.module.css";

export function StandClear({
  firing,
  mayTick,
  onTick,
}: {
  firing: NonNullable<RangeView["firing"]>;
  mayTick: boolean;
  onTick: (key: string, done: boolean) => void;
}) {
  if (firing.standClear.length === 0)
    return <p>Nobody on this map stands in its zone: its stand-clear list is empty.</p>;
  return (
    <fieldset className={styles.list}>
      <legend>Stand-clear list of {firing.machineName}</legend>
      {firing.standClear.map(({ key, name, ticked }) => (
        <label key={key} className="check">
          <input
            type="checkbox"
            checked={ticked}
            disabled={!mayTick}
            onChange={(event) => onTick(key, event.target.checked)}
          />
          {name}
        </label>
      ))}
    </fieldset>
  );
}
