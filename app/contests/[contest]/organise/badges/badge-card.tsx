"use client";
import { useEffect, useState } from "react";
import { LocalTime } from "@/app/_ui/local-time";
import { ROLE_WORDS } from "@/app/_ui/words";
import type { BadgeInfo } from "@/lib/api/contracts";
import { qrDrawing } from "@/lib/qr";
import styles from "./badge-card.module.css";

/** Only this machine itself opens these. */
const OWN = /^(localhost|127\.\d+\.\d+\.\d+|\[::1\])$/;

/**
 * What a judge carries: the code to type, and the same to point a phone's camera at. In the address it stands behind the
 * #, which no browser sends to any server.
 */
export function BadgeCard({
  label,
  role,
  code,
  contest,
  endsAt,
  reusable,
}: BadgeInfo & { code: string; contest: string }) {
  const [origin, setOrigin] = useState<string | null>(null);
  useEffect(() => setOrigin(window.location.origin), []);
  if (origin === null) return null;
  const own = OWN.test(new URL(origin).hostname);
  return (
    <section className={styles.card} aria-label={`Card of ${label}`}>
      <div>
        <p className={styles.label}>{label}</p>
        <p>
          {ROLE_WORDS[role]}, {contest}
        </p>
        <code className="badge-code">{code}</code>
        <p>
          {endsAt && (
            <>
              Ends <LocalTime iso={endsAt} day />.{" "}
            </>
          )}
          {reusable ? "Keep it as you keep a key." : "The code signs in one device, once."}
        </p>
        <p>
          {own
            ? "Sign in with this code."
            : `Point a camera at the square, or sign in with the code at ${origin}`}
        </p>
      </div>
      {own ? (
        <p className="no-print">
          No square is drawn: a phone cannot open {origin}. Open this page by the address that phones use, and
          the next card has one.
        </p>
      ) : (
        <div
          className={styles.square}
          // biome-ignore lint/security/noDangerouslySetInnerHtml: drawn here, of an address and a code of letters and digits
          dangerouslySetInnerHTML={{
            __html: qrDrawing(`${origin}/sign-in#${code}`, "Square that signs in with this code"),
          }}
        />
      )}
    </section>
  );
}
