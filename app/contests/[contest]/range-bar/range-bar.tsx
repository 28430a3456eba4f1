"use client";
/**
 * What the range is, on every page of the contest: cold, hot, or a hold that nobody can miss; when the server was last
 * heard; and for officials the one control that stops everything.
 */
import { useEffect, useRef, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import type { RangeBrief } from "@/lib/api/contracts";
import { useAlarm } from "./alarm";
import { HoldPicture } from "./hold-picture";
import styles from "./range-bar.module.css";
import { modeWords, momentOf } from "./range-words";
import { NO_DRILL, RehearsalStrip } from "./rehearsal-strip";
import { type Calling, useHold } from "./use-hold";

const nothing = () => {};

export function RangeBar({
  slug,
  known,
  mayHold,
  mayLift,
}: {
  slug: string;
  /** Sequence of the newest scorebook entry that the page was made with. */
  known: number;
  mayHold: boolean;
  mayLift: boolean;
}) {
  const [brief, setBrief] = useState<RangeBrief | null>(null);
  const { awaited, expect, hear } = useOwnHold();
  const heard = useLive(`/api/v1/contests/${slug}/live`, known, nothing, (told) => {
    hear(told);
    setBrief(told);
  });
  const { calling, pressedAt, press } = useHold(slug, expect);
  const [seen, setSeen] = useState("");

  // A page whose own hold has no answer yet, or whose feed has not told it, stands still all the same.
  const unheard = calling === "calling" || calling === "unstored" || awaited;
  const holding = brief?.mode === "hold" || unheard;
  const which = brief?.mode === "hold" ? brief.holds.map(({ id }) => id).join() : `own ${pressedAt}`;
  const lost = heard.at !== null && !heard.open;
  const fresh = holding && seen !== which;
  const { mute } = useAlarm(fresh);
  return (
    <>
      <div
        className={`${styles.bar} ${holding ? styles.onHold : brief ? styles[brief.mode] : ""}`}
        data-range={holding ? "hold" : (brief?.mode ?? "unknown")}
        data-sticky={mayHold || (brief !== null && brief.mode !== "cold") || undefined}
      >
        {brief?.rehearsal && <RehearsalStrip {...brief.rehearsal} />}
        <div className={styles.inner}>
          <p className={styles.state} role="status">
            {holding && <HoldPicture size={34} />}
            <strong>{holding ? "HOLD" : modeWords(brief)}</strong>{" "}
            <span>
              {lost ? (
                <Lost at={heard.at} />
              ) : (
                "Horn, flag and radio are the stop; this page only mirrors them."
              )}
            </span>
          </p>
          {mayHold && (
            <button type="button" className={styles.hold} onClick={() => void press()}>
              HOLD
            </button>
          )}
        </div>
      </div>
      {fresh && (
        <HoldScreen
          brief={brief?.mode === "hold" ? brief : null}
          calling={calling}
          mute={mute}
          liftAt={mayLift ? `/contests/${slug}/range` : null}
          onSeen={() => setSeen(which)}
        />
      )}
      {typeof calling === "object" && (
        <p className={styles.refused} role="alert">
          Not taken: {calling.refused} Use horn, flag and radio.
        </p>
      )}
      {calling === "late" && (
        <p className={styles.refused} role="alert">
          Your hold reached the server too late: it is written down, and did not stop anything. Press again if
          it must.
        </p>
      )}
    </>
  );
}

/** The hold of this page that the server has taken: awaited until the feed has told it, or what came after it. */
function useOwnHold() {
  const [awaited, setAwaited] = useState(false);
  const told = useRef(new Set<string>());
  return {
    awaited,
    expect: (id: string) => {
      if (!told.current.has(id)) setAwaited(true);
    },
    hear: ({ holds }: RangeBrief) => {
      for (const { id } of holds) told.current.add(id);
      setAwaited(false);
    },
  };
}

const Lost = ({ at }: { at: Date | null }) => (
  <b>Server lost, last heard {momentOf(at)}. This may be old: ask by radio.</b>
);

function HoldScreen({
  brief,
  calling,
  mute,
  liftAt,
  onSeen,
}: {
  brief: RangeBrief | null;
  calling: Calling;
  /** This page cannot sound yet. */
  mute: boolean;
  liftAt: string | null;
  onSeen: () => void;
}) {
  const heading = useRef<HTMLHeadingElement>(null);
  useEffect(() => {
    // Not to the button: whoever is typing would press it.
    heading.current?.focus({ preventScroll: true });
    const title = document.title;
    document.title = `HOLD · ${title}`;
    return () => {
      document.title = title;
    };
  }, []);
  return (
    <section className={styles.screen} aria-label="Hold">
      <div className={styles.picture}>
        <HoldPicture size="100%" />
      </div>
      <div role="alert">
        <h2 ref={heading} tabIndex={-1}>
          HOLD
        </h2>
        <p>
          <strong>
            Nobody fires, nobody raises, nobody walks. Stay where you are until the safety officer lifts it.
          </strong>
        </p>
        {brief?.rehearsal && <p>{NO_DRILL}</p>}
      </div>
      {calling === "calling" && (
        <p role="alert">
          The server has not answered yet: blow the horn, show the flag, call it on the radio. Still sending.
        </p>
      )}
      {calling === "unstored" && (
        <p>It stands on every page. The server’s disk is full: it is written down later.</p>
      )}
      {brief && (
        <ul>
          {brief.holds.map(({ id, at, by, why }) => (
            <li key={id}>
              {momentOf(new Date(at))}, {by ?? "the program"}: {why}
            </li>
          ))}
        </ul>
      )}
      <p>
        Horn, flag and radio are the stop; this page only mirrors them.
        {mute && " It may sound once you touch it."}
      </p>
      <p className={styles.ways}>
        <button type="button" className="button" onClick={onSeen}>
          Seen: quiet on this page
        </button>
        {liftAt && (
          <a className="button" href={liftAt}>
            To the range
          </a>
        )}
      </p>
    </section>
  );
}
