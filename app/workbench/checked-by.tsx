/** On paper: who looked at it, and when. */
import styles from "./workbench.module.css";

export function CheckedBy() {
  return (
    <p className={styles.checked} aria-hidden="true">
      <span>Checked by</span>
      <span>Trade or licence</span>
      <span>Date</span>
      <span>Signature</span>
    </p>
  );
}
