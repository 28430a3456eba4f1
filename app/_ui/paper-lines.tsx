/** What is filled in by hand on paper: a few labels with a line each, and a table of empty lines. */
import type { ReactNode } from "react";
import styles from "./paper-lines.module.css";

export const Blanks = ({ of }: { of: readonly (string | { label: string; value: string })[] }) => (
  <dl className={styles.head}>
    {of.map((each) => {
      const { label, value } = typeof each === "string" ? { label: each, value: "" } : each;
      return (
        <div key={label}>
          <dt>{label}</dt>
          <dd>{value}</dd>
        </div>
      );
    })}
  </dl>
);

/** Numbered, under as many heads. */
export const BlankLines = ({
  label,
  caption,
  heads,
  lines,
  className = "",
}: {
  /** Names the frame that scrolls on a narrow screen. */
  label: string;
  caption?: ReactNode;
  heads: readonly string[];
  lines: number;
  className?: string | undefined;
}) => (
  <div className="table-frame" role="region" aria-label={label} tabIndex={0}>
    <table className={`table ${styles.lines} ${className}`}>
      {caption && <caption>{caption}</caption>}
      <thead>
        <tr>
          <th scope="col">No.</th>
          {heads.map((head) => (
            <th key={head} scope="col">
              {head}
            </th>
          ))}
        </tr>
      </thead>
      <tbody>
        {Array.from({ length: lines }, (_, line) => (
          <tr key={`line ${line + 1}`}>
            <th scope="row">{line + 1}</th>
            {heads.map((head) => (
              <td key={head} />
            ))}
          </tr>
        ))}
      </tbody>
    </table>
  </div>
);
