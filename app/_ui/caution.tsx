/**
 * Danger, and only danger: an ISO 3864 colour with its sign and its word. Warning says what may hurt,
 * prohibition what nobody may do, mandatory what must be done.
 */
import type { ReactNode } from "react";

export type CautionKind = "warning" | "prohibition" | "mandatory";

const words: Record<CautionKind, string> = { warning: "Warning", prohibition: "Never", mandatory: "Must do" };

/** The general signs: a triangle, a crossed ring, a full disc. */
export function SafetySign({ kind, size }: { kind: CautionKind; size?: number }) {
  return (
    <svg viewBox="0 0 40 40" width={size} height={size} aria-hidden="true" focusable="false">
      {kind === "warning" ? (
        <>
          <path d="M20 3 38 35H2Z" fill="#f9a800" stroke="#1b1813" strokeWidth="3" strokeLinejoin="round" />
          <path d="M20 13v11M20 27.5v4" stroke="#1b1813" strokeWidth="4" />
        </>
      ) : kind === "prohibition" ? (
        <>
          <circle cx="20" cy="20" r="19" fill="#fff" />
          <circle cx="20" cy="20" r="15.5" fill="none" stroke="#9b2423" strokeWidth="5" />
          <path d="m9 9 22 22" stroke="#9b2423" strokeWidth="5" />
        </>
      ) : (
        <>
          <circle cx="20" cy="20" r="18" fill="#005387" stroke="#fff" strokeWidth="2" />
          <path d="M20 9v13M20 26.5v5" stroke="#fff" strokeWidth="4.5" />
        </>
      )}
    </svg>
  );
}

export function Caution({
  kind = "warning",
  title,
  children,
}: {
  kind?: CautionKind;
  title?: string;
  children: ReactNode;
}) {
  return (
    <div className={`caution caution-${kind}`} role="note">
      <div className="caution-sign">
        <SafetySign kind={kind} />
      </div>
      <div className="caution-body">
        <p className="caution-title">
          {words[kind]}
          {title ? `: ${title}` : ""}
        </p>
        {children}
      </div>
    </div>
  );
}
