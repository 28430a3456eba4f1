"use client";
/** The answer in very large words. Red, its sign and its word stand together, and only inside a zone. */
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
  const [deepest, ...others] = state.zones;
  return (
    <div className={`${styles.panel} ${styles.inside}`}>
      {was}
      <div className={styles.sign}>
        <SafetySign kind="prohibition" size={72} />
        <p className={styles.headline} aria-live="assertive">
          Inside the zone of {name(deepest?.id ?? "")}
        </p>
      </div>
      <p className={styles.far}>{wholeDistance(state.out.distance, system, "up")}</p>
      <p className={styles.whose}>to the nearest way out</p>
      <Direction way={state.out} words="Go" />
      {others.length > 0 && (
        <p className={styles.others}>
          Inside the {others.length === 1 ? "zone" : "zones"} of {others.map(({ id }) => name(id)).join(", ")}{" "}
          too: the way leads out of all of them.
        </p>
      )}
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
