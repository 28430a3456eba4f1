import type { Entry } from "@/lib/api/contracts";
import styles from "../entries.module.css";

export function Photographs({ slug, entry }: { slug: string; entry: Entry }) {
  if (entry.photographs.length === 0) return <p>None.</p>;
  return (
    <ul className={styles.photographs}>
      {entry.photographs.map(({ id, subject, width, height }, index) => {
        const url = `/api/v1/contests/${slug}/entries/${entry.id}/photographs/${id}`;
        return (
          <li key={id}>
            <a href={url} target="_blank" rel="noreferrer">
              {/* biome-ignore lint/performance/noImgElement: nothing between may keep a copy of it */}
              <img
                src={url}
                width={width}
                height={height}
                loading="lazy"
                alt={`Photograph ${index + 1}: ${subject === "machine" ? "the machine" : "the insurance’s paper"}`}
              />
            </a>
          </li>
        );
      })}
    </ul>
  );
}
