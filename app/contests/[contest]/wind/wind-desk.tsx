"use client";
/** The wind as it counts, a form for who may read it, and every reading so far. */
import { useCallback, useState } from "react";
import { useLive } from "@/app/_ui/live/use-live";
import { LocalTime } from "@/app/_ui/local-time";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { WindHistory, WindReadingInfo } from "@/lib/api/contracts";
import { formatQuantity } from "@/lib/units";
import { ReadingForm } from "./reading-form";
import { useExpiry } from "./use-expiry";
import { meanWord, NoLongerHolds, WindState } from "./wind-state";

export function WindDesk({
  slug,
  first,
  sequence,
  declination,
  mayRead,
  lasting,
  label,
}: {
  slug: string;
  first: WindHistory;
  /** Of the newest scorebook entry that this shows. */
  sequence: number;
  /** Degrees, east positive. */
  declination: number;
  mayRead: boolean;
  /** Minutes that a reading counts without another word. */
  lasting: number;
  /** Of the badge that reads the page. */
  label: string;
}) {
  const system = useUnits();
  const [{ now, readings }, setHistory] = useState(first);
  const base = `/api/v1/contests/${slug}`;
  const refresh = useCallback(async () => {
    try {
      const response = await fetch(`${base}/wind-readings`, { cache: "no-store" });
      if (response.ok) setHistory((await response.json()) as WindHistory);
    } catch {
      // No network: what is shown stays, with its times.
    }
  }, [base]);
  useLive(`${base}/live`, sequence, ({ kind }, missed) => {
    if (missed || ["conditions", "sheet", "machine", "layout"].includes(kind)) void refresh();
  });
  useExpiry(now, refresh);

  const speed = (value: number) => formatQuantity(value, "speed", system, { digits: 1 });
  const counts = new Set(now.inForce.map(({ id }) => id));
  const stateOf = (reading: WindReadingInfo) => {
    if (counts.has(reading.id)) return "counts";
    return reading.expiresAt <= now.at ? "expired" : "replaced by a newer one of this post";
  };
  return (
    <>
      <WindState slug={slug} wind={now} system={system} />
      <NoLongerHolds wind={now} system={system} />
      {mayRead ? (
        <>
          <h2>Read the wind</h2>
          <p>
            Stand where the machines throw, hold the anemometer up and clear of people, and watch it for two
            minutes at least: the mean, and the top.
          </p>
          <ReadingForm
            slug={slug}
            declination={declination}
            lasting={lasting}
            posts={[...new Set([...readings.map(({ observer }) => observer), label])].filter(Boolean)}
            onDone={refresh}
          />
        </>
      ) : (
        <p>The organiser, the safety officer and judges read the wind.</p>
      )}
      <h2>Readings so far</h2>
      <Table
        caption="Readings of the wind, newest first"
        hideCaption
        rows={readings}
        rowKey={({ id }) => id}
        empty="Nobody has read the wind yet."
        columns={[
          {
            key: "at",
            head: "Read",
            rowHead: true,
            cell: ({ observedAt }) => <LocalTime iso={observedAt} day />,
          },
          {
            key: "mean",
            head: "Mean",
            cell: (reading) => `${speed(reading.speed)}, ${meanWord(reading)}`,
          },
          { key: "gust", head: "Top gust", number: true, cell: ({ gust }) => speed(gust) },
          { key: "from", head: "Blows from", cell: ({ direction }) => bearingText(direction) },
          {
            key: "height",
            head: "Read at",
            number: true,
            cell: ({ height }) => formatQuantity(height, "distance", system, { digits: 1 }),
          },
          { key: "observer", head: "By", cell: ({ observer, by }) => `${observer} (${by})` },
          {
            key: "state",
            head: "Counts",
            cell: (reading) => (
              <>
                {stateOf(reading)}, until <LocalTime iso={reading.expiresAt} />
              </>
            ),
          },
        ]}
      />
      <p>
        The word for the wind is that of the Beaufort scale for its mean 10 m above open ground. Speeds at
        different heights are compared by the power law with the exponent 1/7: common practice, no source.
      </p>
    </>
  );
}
