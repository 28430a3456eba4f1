"use client";
/** What is saved where, always on the screen: at the server, or on this phone alone; and which pages it keeps. */
import { useEffect, useState } from "react";
import type { Heard } from "@/app/_ui/live/use-live";
import { type Offline, useOffline } from "@/app/_ui/offline/use-offline";
import styles from "./judge.module.css";
import type { Waiting } from "./outbox";

export function WhereSaved({
  waiting,
  heard,
  held = 0,
}: {
  waiting: Waiting;
  heard: Heard;
  /** Entries that arrived after this badge had ended, and are not decided about. */
  held?: number;
}) {
  const [here, setHere] = useState(false);
  useEffect(() => setHere(true), []);
  const count = waiting.entries.length;
  return (
    <section
      className={styles.whereSaved}
      aria-label="What is saved where"
      data-waiting={here && !waiting.loading ? count : "unknown"}
    >
      <p>
        <strong>
          {waiting.loading
            ? "Reading what this phone keeps…"
            : count === 0
              ? "All that was entered here is at the server."
              : `${count === 1 ? "1 entry is" : `${count} entries are`} on this phone and not at the server yet.`}
        </strong>{" "}
        {held > 0 && (
          <strong>
            {held === 1 ? "1 entry arrived; it waits" : `${held} entries arrived; they wait`} to be confirmed
            by an official, since this badge has ended.
          </strong>
        )}{" "}
        {heard.open
          ? "Connected: other judges’ entries show by themselves."
          : "Not connected. Entries are kept on this phone and sent when the network is back."}
      </p>
    </section>
  );
}

/** Has this phone keep what a judge needs, and says whether it did. */
export function KeptPages({ slug, rounds }: { slug: string; rounds: readonly number[] }) {
  const base = `/contests/${slug}`;
  const offline = useOffline([
    ...["judge", "spot"].flatMap((page) => [
      `${base}/${page}`,
      ...rounds.map((round) => `${base}/${page}?round=${round}`),
    ]),
    ...rounds.map((round) => `${base}/judge/paper?round=${round}`),
    base,
    ...["map", "standings", "walk", "splash"].map((page) => `${base}/${page}`),
  ]);
  return words[offline] && <p className={styles.heard}>{words[offline]}</p>;
}

const words: Record<Offline, string | null> = {
  asking: null,
  ready:
    "Without a network this page, the map, the standings and both walks (zone, splash) open from this phone.",
  insecure:
    "This page did not come over https. Keep it open: without a network it does not open again, and this phone gives no position. The organiser can start the program with https.",
  unable: "This browser could not keep the pages: without a network keep this page open.",
};
