"use client";
/** The answer in very large words. Red, its sign and its word stand together, and only inside a zone. */
import type { ReactNode } from "react";
import { SafetySign } from "@/app/_ui/caution";
import { compassPoint } from "@/app/_ui/compass";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { bearingText } from "@/app/_ui/words";
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
        <Direction way={nearest} words="It lies to the" />
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
      <Direction way={out} words="Go" />
      {children}
    </div>
  );
}

function Direction({ way, words }: { way: Way; words: string }) {
  return (
    <p className={styles.direction}>
      <svg viewBox="0 0 100 100" className={styles.rose} aria-hidden="true" focusable="false">
        <circle cx="50" cy="54" r="40" fill="none" stroke="currentColor" strokeWidth="3" />
        <text x="50" y="11" textAnchor="middle" fontSize="14" fontWeight="700" fill="currentColor">
          N
        </text>
        <path
          d="M50 20 66 54 54 50V86H46V50L34 54Z"
          fill="currentColor"
          transform={`rotate(${way.bearing.toFixed(0)} 50 54)`}
        />
      </svg>
      <span>
        {words} <strong>{compassPoint(way.bearing)}</strong>, {bearingText(Math.round(way.bearing) % 360)}. On
        the drawing north is up.
      </span>
    </p>
  );
}
