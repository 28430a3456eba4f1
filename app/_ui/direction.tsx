/** Which way to go: an arrow on a rose, and the same in words. */
import { compassPoint } from "./compass";
import styles from "./direction.module.css";
import { bearingText } from "./words";

export function Direction({
  bearing,
  words,
  heading = null,
}: {
  /** Degrees true. */
  bearing: number;
  words: string;
  /** Where the phone's top edge points, degrees true: the rose is turned to the ground. North is up without it. */
  heading?: number | null;
}) {
  return (
    <p className={styles.direction}>
      <svg viewBox="0 0 100 100" className={styles.rose} aria-hidden="true" focusable="false">
        <g transform={heading === null ? undefined : `rotate(${(-heading).toFixed(0)} 50 50)`}>
          <circle cx="50" cy="50" r="37" fill="none" stroke="currentColor" strokeWidth="3" />
          <text x="50" y="11" textAnchor="middle" fontSize="14" fontWeight="700" fill="currentColor">
            N
          </text>
          <path
            d="M50 18 65 51 54 47V82H46V47L35 51Z"
            fill="currentColor"
            transform={`rotate(${bearing.toFixed(0)} 50 50)`}
          />
        </g>
      </svg>
      <span>
        {words} <strong>{compassPoint(bearing)}</strong>, {bearingText(Math.round(bearing) % 360)}.{" "}
        {heading === null ? "On the drawing north is up." : "The arrow turns with this phone held flat."}
      </span>
    </p>
  );
}
