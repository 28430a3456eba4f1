"use client";
/** One round on a judge's phone: as the page brought it, as this phone last knew it, and what the live feed tells. */
import { useRouter } from "next/navigation";
import { useCallback, useEffect, useMemo, useRef, useState } from "react";
import { nowAndThen } from "@/app/_ui/live/now-and-then";
import { useLive } from "@/app/_ui/live/use-live";
import { hearClock } from "@/app/_ui/offline/clock";
import type { JudgeView, LiveChange, ShotInfo } from "@/lib/api/contracts";
import { keepView, newerView } from "./kept-view";

/** Kinds of change after which the shots of the round may be others. */
const SHOWS: ReadonlySet<LiveChange["kind"]> = new Set(["fix", "sighting", "ruling", "machine"]);

export interface Given {
  slug: string;
  initial: JudgeView;
  /** When the server made this page, ISO 8601: a phone without a network opens an old one. */
  madeAt: string;
  /** The judge's badge; null for who may only look. */
  owner: string | null;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
}

export function useRoundView({ slug, initial, madeAt, owner, sequence }: Given) {
  const router = useRouter();
  const [view, setView] = useState(initial);
  const latest = useRef(view);
  latest.current = view;

  const change = useCallback(
    (part: (now: JudgeView) => JudgeView) => {
      latest.current = part(latest.current);
      setView(latest.current);
      void keepView(slug, latest.current);
    },
    [slug],
  );
  const changeShot = useCallback(
    (shotId: string, part: (shot: JudgeView["shots"][number]) => Partial<ShotInfo>) =>
      change((now) => ({
        ...now,
        shots: now.shots.map((one) => (one.id === shotId ? { ...one, ...part(one) } : one)),
      })),
    [change],
  );
  const refresh = useCallback(async () => {
    try {
      // Shots of an earlier round may be made up for in the course of this one.
      const rounds = new Set([initial.round, ...latest.current.shots.map(({ round }) => round)]);
      const known = new Map<string, ShotInfo>();
      for (const round of rounds) {
        const asked = Date.now();
        const response = await fetch(`/api/v1/contests/${slug}/shots?round=${round}`, { cache: "no-store" });
        hearClock(response.headers.get("date"), asked, Date.now());
        if (!response.ok) return;
        const { shots } = (await response.json()) as { shots: ShotInfo[] };
        for (const shot of shots) known.set(shot.id, shot);
        const isNew = ({ id }: ShotInfo) => !latest.current.shots.some((one) => one.id === id);
        if (round === initial.round && shots.some(isNew)) router.refresh();
      }
      change((now) => ({ ...now, shots: now.shots.map((one) => ({ ...one, ...known.get(one.id) })) }));
    } catch {
      // No network: the list stays as it was last known.
    }
  }, [slug, initial.round, change, router]);
  const readAnew = useMemo(() => nowAndThen(refresh), [refresh]);
  const heard = useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (kind === "round") router.refresh();
    else if (missed || SHOWS.has(kind)) readAnew();
  });
  // A new round or a later shot came with the page anew; an old page takes what this phone has seen since.
  useEffect(() => {
    setView(initial);
    void newerView(slug, initial.round, madeAt).then((newer) => {
      if (newer) setView(newer);
    });
  }, [slug, initial, madeAt]);
  useEffect(() => {
    // Whoever looks on without a badge hears of it by the live feed alone.
    if (owner !== null && initial.round !== null) void refresh();
  }, [owner, initial.round, refresh]);

  return { view, changeShot, heard };
}
