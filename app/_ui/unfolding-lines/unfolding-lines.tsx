"use client";
/** Lines one below the other, one of them open: each with how it stands, and the way to the next. For one thumb. */
import { type ReactNode, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import styles from "./unfolding-lines.module.css";

export interface UnfoldingLine {
  id: string;
  title: string;
  /** A sign and a word. */
  state: string;
  /** What is read and answered there. `stay` keeps the line open though it needs nothing more. */
  body: (stay: () => void) => ReactNode;
}

export function UnfoldingLines({
  lines,
  first,
  className = "",
}: {
  lines: readonly UnfoldingLine[];
  /** Which is open until somebody has chosen; null for none. */
  first: string | null;
  className?: string;
}) {
  const list = useRef<HTMLOListElement>(null);
  /** Null when all are closed; undefined until somebody has chosen. */
  const [chosen, choose] = useState<string | null>();
  const open = chosen === undefined ? first : chosen;
  const goTo = (id: string) => {
    choose(id);
    requestAnimationFrame(() => {
      const button = list.current?.querySelector<HTMLElement>(`[aria-controls="line-${id}"]`);
      button?.scrollIntoView({ block: "start" });
      button?.focus();
    });
  };
  return (
    <ol className={`${styles.lines} ${className}`} ref={list}>
      {lines.map(({ id, title, state, body }, index) => {
        const isOpen = id === open;
        const next = lines[index + 1];
        return (
          <li key={id} className={styles.line}>
            <h3>
              <button
                type="button"
                className={styles.opener}
                aria-expanded={isOpen}
                aria-controls={`line-${id}`}
                onClick={() => choose(isOpen ? null : id)}
              >
                <span>{title}</span>
                <span className={styles.state}>{state}</span>
              </button>
            </h3>
            <div id={`line-${id}`} hidden={!isOpen}>
              {isOpen && (
                <>
                  {body(() => choose(id))}
                  {next && (
                    <p className="button-row">
                      <Button onClick={() => goTo(next.id)}>Next: {next.title}</Button>
                    </p>
                  )}
                </>
              )}
            </div>
          </li>
        );
      })}
    </ol>
  );
}
