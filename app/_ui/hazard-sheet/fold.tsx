"use client";
/** Details that a wide screen shows, a phone folds, and paper always shows unless they are for the screen alone. */
import { type ReactNode, useEffect, useRef, useSyncExternalStore } from "react";

const WIDE = "(min-width: 48rem)";

function watchWidth(changed: () => void) {
  const query = matchMedia(WIDE);
  query.addEventListener("change", changed);
  return () => query.removeEventListener("change", changed);
}

export function Fold({
  title,
  screenOnly = false,
  shut = screenOnly,
  children,
}: {
  title: string;
  /** Not printed. */
  screenOnly?: boolean;
  /** Folded on a wide screen too. */
  shut?: boolean;
  children: ReactNode;
}) {
  const wide = useSyncExternalStore(
    watchWidth,
    () => matchMedia(WIDE).matches,
    () => true,
  );
  const details = useRef<HTMLDetailsElement>(null);
  // Paper cannot be unfolded.
  useEffect(() => {
    if (screenOnly) return;
    let before = false;
    const open = () => {
      before = details.current?.open ?? false;
      if (details.current) details.current.open = true;
    };
    const back = () => {
      if (details.current) details.current.open = before;
    };
    addEventListener("beforeprint", open);
    addEventListener("afterprint", back);
    return () => {
      removeEventListener("beforeprint", open);
      removeEventListener("afterprint", back);
    };
  }, [screenOnly]);
  return (
    <details
      key={String(wide)}
      ref={details}
      className={screenOnly ? "sheet-fold no-print" : "sheet-fold"}
      open={wide && !shut}
    >
      <summary>{title}</summary>
      {children}
    </details>
  );
}
