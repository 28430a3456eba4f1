"use client";
/** What the inspector will look at on this kind of machine, with the reason for each line. */
import { linesFor } from "@/lib/inspection";
import type { Declaration } from "@/lib/throw";
import styles from "./enter.module.css";

export function AskedThere({ declaration }: { declaration: Declaration | null }) {
  if (!declaration) return <p>Put the machine’s numbers right first: what is looked at hangs on its kind.</p>;
  return (
    <>
      <p>
        Nothing is hot before the inspector has gone through all of this on the day and the safety officer has
        signed a firing permit. Go through it at home first; the workbench keeps ticks for it.
      </p>
      <ul className={styles.looked}>
        {linesFor(declaration.machine).map(({ id, title, look, reason }) => (
          <li key={id}>
            <details>
              <summary>{title}</summary>
              <p>{look}</p>
              <p>Why: {reason}</p>
            </details>
          </li>
        ))}
      </ul>
    </>
  );
}
