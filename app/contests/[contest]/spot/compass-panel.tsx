"use client";
/** The phone's compass in large figures, or why there is none. */
import { Button } from "@/app/_ui/button";
import { compassPoint } from "@/app/_ui/compass";
import type { Compass } from "@/app/_ui/heading/use-heading";
import { bearingText } from "@/app/_ui/words";
import type { Sight } from "./sight";
import styles from "./spot.module.css";

/** A hand that shakes by more is told so, degrees. */
const SHAKY = 5;

export function CompassPanel({
  compass,
  spread,
  sight,
  declination,
  onStart,
}: {
  compass: Compass;
  /** Of the last second, degrees. */
  spread: number;
  sight: Sight | null;
  declination: number;
  onStart: () => void;
}) {
  return (
    <div className={styles.compass}>
      {sight && compass === "reading" ? (
        <>
          <p className={styles.reading}>{bearingText(Math.round(sight.bearing) % 360)}</p>
          <p>
            {compassPoint(sight.bearing)}, magnetic, ± {sight.uncertainty}° (standard). The site&rsquo;s
            declination, {east(declination)}, is added.
            {spread > SHAKY && <strong> Hold it still.</strong>}
          </p>
        </>
      ) : compass === "ready" ? (
        <p>
          <Button wide onClick={onStart}>
            Start the compass
          </Button>
        </p>
      ) : (
        <p role="status">{WORDS[compass]}</p>
      )}
      <p className="field-help">
        Hold the phone flat, away from iron, its top edge to the splash. Then press Send.
      </p>
    </div>
  );
}

/** "9.5° west". */
const east = (degrees: number) => `${Math.abs(degrees)}° ${degrees < 0 ? "west" : "east"}`;

const WORDS: Record<Compass, string> = {
  unknown: "",
  ready: "",
  insecure:
    "This page did not come over https, so the phone does not give its compass. Turn the dial, or touch the map.",
  asking: "Asking this phone…",
  denied:
    "This phone was told not to give its compass here. Allow motion and orientation in the browser’s settings and open the page anew, or turn the dial.",
  silent: "This phone gives no bearing: move it in a figure of eight, hold it flat, or turn the dial.",
  reading: "Waiting for the next reading…",
};
