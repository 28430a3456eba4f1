"use client";
/** Tells a device when its badge is about to end, when it has ended, and what becomes of what it holds. */
import { useRouter } from "next/navigation";
import { useCallback, useEffect, useRef, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import { LocalTime } from "@/app/_ui/local-time";
import { serverNow } from "@/app/_ui/offline/clock";
import { ENDED_WORDS } from "@/app/_ui/words";
import type { Ended, Me } from "@/lib/api/contracts";
import styles from "./badge-end.module.css";

/** How long before the end it is told, ms. */
const SOON = 12 * 3600_000;
const EVERY = 15_000; // ms

export function BadgeEnd({ slug, known, initial }: { slug: string; known: number; initial: Me }) {
  const router = useRouter();
  const [me, setMe] = useState(initial);
  const [now, setNow] = useState<number | null>(null);
  const hadEnded = useRef(initial.ended !== null);
  const ask = useCallback(async () => {
    const answer = await fetch("/api/v1/me", { cache: "no-store" }).catch(() => null);
    if (!answer?.ok) return;
    const found = (await answer.json()) as Me;
    setMe(found);
    // More time was given: pages that refused open again.
    if (hadEnded.current && found.badge) router.refresh();
    hadEnded.current = found.ended !== null;
  }, [router]);
  const here = me.badge?.contestSlug === slug ? me.badge : null;
  const told = me.ended?.contestSlug === slug ? me.ended : null;
  const over = told ?? (here && now && Date.parse(here.expiresAt) <= now ? byTheClock(here) : null);
  const soon = here && now && Date.parse(here.expiresAt) - now < SOON ? here : null;
  const watched = !!here || !!told;
  const unsure = !!over && !told;
  useLive(`/api/v1/contests/${slug}/live`, known, ({ kind }, missed) => {
    if (watched && (missed || kind === "badge")) void ask();
  });
  const ends = here?.expiresAt;
  useEffect(() => {
    if (!watched) return;
    let timer: ReturnType<typeof setTimeout>;
    const look = () => {
      const at = serverNow().getTime();
      setNow(at);
      const left = ends ? Date.parse(ends) - at : EVERY;
      timer = setTimeout(look, left > 0 ? Math.min(left + 50, EVERY) : EVERY);
    };
    look();
    return () => clearTimeout(timer);
  }, [watched, ends]);
  // By this device's clock it is over: the server knows whether there is more time.
  useEffect(() => {
    if (!unsure) return;
    void ask();
    const timer = setInterval(() => void ask(), EVERY);
    return () => clearInterval(timer);
  }, [unsure, ask]);

  return (
    <div role="status" className={over || soon ? `${styles.told} no-print` : undefined}>
      {over ? (
        <p>
          <strong>
            {over.label}: this badge {ENDED_WORDS[over.how]}, <LocalTime iso={over.at} day />.
          </strong>{" "}
          What this device has not sent stays on it; landing points seen before go out from the Judge page,
          and count once confirmed. {WHAT_NOW[over.how]}
        </p>
      ) : (
        soon && (
          <p>
            {soon.label}: this badge ends <LocalTime iso={soon.expiresAt} day />. If you need longer, ask the
            organiser before that.
          </p>
        )
      )}
    </div>
  );
}

const byTheClock = ({ label, expiresAt }: { label: string; expiresAt: string }) => ({
  label,
  how: "past-end" as const,
  at: expiresAt,
});

const WHAT_NOW: Record<Ended, string> = {
  "past-end": "Ask the organiser for more time: this device then goes on without a new code.",
  revoked: "Ask the organiser for a new badge.",
  replaced: "Ask the organiser for a new code that adds this device.",
};
