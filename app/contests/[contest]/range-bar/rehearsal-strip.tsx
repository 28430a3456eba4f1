/** What is played, on every page of the contest: nobody takes it for the day, nor a real cry for a played one. */
import type { RangeBrief } from "@/lib/api/contracts";
import styles from "./rehearsal-strip.module.css";

/** Common practice, no source. */
export const NO_DRILL = "This is a rehearsal. If something real happens, call “No drill” and hold.";

export function RehearsalStrip({ words, cue }: NonNullable<RangeBrief["rehearsal"]>) {
  return (
    <div className={styles.strip} data-rehearsal={cue ? "cue" : "playing"}>
      <p className={cue ? styles.cue : styles.words} role="status">
        {words}
      </p>
      <p className={styles.real}>{NO_DRILL}</p>
    </div>
  );
}
