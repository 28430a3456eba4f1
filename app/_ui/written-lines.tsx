import styles from "./written-lines.module.css";

/** Lines of a paper to be signed. Names are written by hand: they stay on this paper. */
export function WrittenLines({ caption, rows }: { caption: string; rows: readonly string[] }) {
  return (
    <table className={styles.lines}>
      <caption>{caption}</caption>
      <thead>
        <tr>
          <th scope="col">Who</th>
          <th scope="col">Name and signature</th>
          <th scope="col">Date, time</th>
        </tr>
      </thead>
      <tbody>
        {rows.map((who) => (
          <tr key={who}>
            <th scope="row">{who}</th>
            <td />
            <td />
          </tr>
        ))}
      </tbody>
    </table>
  );
}
