"use client";
/** The answer in very large words. Red, its sign and its word stand together, and only inside a zone. */
import type { ReactNode } from "react";
import { SafetySign } from "@/app/_ui/caution";
import { Direction } from "@/app/_ui/direction";
import { wholeDistance } from "@/app/_ui/kept-distance";
import type { UnitSystem } from "@/lib/units";
import type { WalkState, Way } from "@/lib/zones/walk";
import styles from "./walk.module.css";

export function StandPanel({
  state,
  names,
  age,
  system,
}: {
  state: WalkState;
  /** Of machines, by id. */
  names: ReadonlyMap<string, string>;
  /** ms, when the position is too old to say where the phone is now. */
  age: number | null;
  system: UnitSystem;
}) {
  const name = (id: string) => names.get(id) ?? "a machine";
  const was =
    age === null ? null : (
      <p className={styles.old} role="alert">
        The position is {Math.round(age / 1000)} s old: this is where you were.
      </p>
    );
  if (state.where === "nowhere")
    return (
      <div className={styles.panel}>
        {was}
        <p className={styles.headline}>No zone is drawn</p>
        <p>No machine that counts has a zone, so there is nothing to walk. That clears nothing.</p>
      </div>
    );
  if (state.where === "outside") {
    const { nearest } = state;
    const headline = age === null ? "Outside" : "Not known";
    return (
      <div className={styles.panel}>
        {was}
        <p className={styles.headline} aria-live="assertive">
          {headline}
        </p>
        <p className={styles.far}>{wholeDistance(nearest.distance, system, "down")}</p>
        <p className={styles.whose}>
          {age === null ? "from" : "then from"} the zone of <strong>{name(nearest.id)}</strong>
        </p>
        <Direction bearing={nearest.bearing} words="It lies to the" />
      </div>
    );
  }
  if (state.where === "enclosed")
    return (
      <InsidePanel was={was} headline="Zones all round you" out={state.out} system={system}>
        <p className={styles.others}>
          You stand in none of them, but no way leads out that does not cross one. This ground counts as zone
          for the day.
        </p>
      </InsidePanel>
    );
  const [deepest, ...others] = state.zones;
  return (
    <InsidePanel
      was={was}
      headline={`Inside the zone of ${name(deepest?.id ?? "")}`}
      out={state.out}
      system={system}
    >
      {others.length > 0 && (
        <p className={styles.others}>
          Inside the {others.length === 1 ? "zone" : "zones"} of {others.map(({ id }) => name(id)).join(", ")}{" "}
          too: the way leads out of all of them.
        </p>
      )}
    </InsidePanel>
  );
}

function InsidePanel({
  was,
  headline,
  out,
  system,
  children,
}: {
  /** That the position is old. */
  was: ReactNode;
  headline: string;
  out: Way;
  system: UnitSystem;
  children: ReactNode;
}) {
  return (
    <div className={`${styles.panel} ${styles.inside}`}>
      {was}
      <div className={styles.sign}>
        <SafetySign kind="prohibition" size={72} />
        <p className={styles.headline} aria-live="assertive">
          {headline}
        </p>
      </div>
      <p className={styles.far}>{wholeDistance(out.distance, system, "up")}</p>
      <p className={styles.whose}>to the nearest way out</p>
      <Direction bearing={out.bearing} words="Go" />
      {children}
    </div>
  );
}
