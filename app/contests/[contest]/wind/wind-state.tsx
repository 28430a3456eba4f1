"use client";
/** What the wind of the day does: whether it was measured, within the limit or beyond, and what no longer holds. */
import Link from "next/link";
import { Caution } from "@/app/_ui/caution";
import { compassPoint } from "@/app/_ui/compass";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import type { WindOfDay, WindReadingInfo } from "@/lib/api/contracts";
import { windAt } from "@/lib/earth/air";
import { beaufort, formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "./wind.module.css";

/** The Beaufort word stands for the mean at 10 m. */
export function meanWord({ speed, height }: { speed: number; height: number }): string {
  const { force, word } = beaufort(windAt(10, speed, height));
  return `${word} (force ${force})`;
}

export function WindState({ slug, wind, system }: { slug: string; wind: WindOfDay; system: UnitSystem }) {
  const { state, inForce, expired } = wind;
  const [strongest] = inForce;
  if (state === "beyond" && strongest)
    return <Beyond slug={slug} wind={wind} strongest={strongest} system={system} />;
  if (!strongest)
    return (
      <Notice title={expired ? "Wind: the last reading has expired" : "Wind: not measured"} live>
        {expired && (
          <p>
            {expired.observer} read gusts to {speedText(expired.gust, system)}; that counted until{" "}
            <LocalTime iso={expired.expiresAt} />. Read the wind again.
          </p>
        )}
        <p>{limitWords(wind, system)} Nobody knows today whether the wind keeps to that: measure it.</p>
      </Notice>
    );
  return (
    <Notice title="Wind: measured, within the limit" live>
      <Reading reading={strongest} wind={wind} system={system} />
      <p>{limitWords(wind, system)} Sheets and zones stay as they are.</p>
    </Notice>
  );
}

function Beyond({
  slug,
  wind,
  strongest,
  system,
}: {
  slug: string;
  wind: WindOfDay;
  strongest: WindReadingInfo;
  system: UnitSystem;
}) {
  const { machines } = wind;
  return (
    <div role="status">
      <Caution kind="prohibition" title="fire in this wind">
        <Reading reading={strongest} wind={wind} system={system} />
        <p>
          {limitWords(wind, system)} The wind that was measured is <strong>beyond it</strong>: hold the range.
          Zones on the <Link href={`/contests/${slug}/map`}>map</Link> are computed for this wind until its
          reading expires; they never go below the limit.
        </p>
        {machines.length === 0 ? (
          <p>Every distance is the same in this wind. The limit forbids firing all the same.</p>
        ) : (
          <p>
            <a href="#no-longer-holds">
              {machines.length === 1
                ? "The distances of one machine no longer hold"
                : `The distances of ${machines.length} machines no longer hold`}
            </a>
            : {machines.map(({ machineName }) => machineName).join(", ")}.
          </p>
        )}
      </Caution>
    </div>
  );
}

/** Every machine whose distances are others in the measured wind, with the old and the new. */
export function NoLongerHolds({ wind: { machines }, system }: { wind: WindOfDay; system: UnitSystem }) {
  if (machines.length === 0) return null;
  const distance = (metres: number) => wholeDistance(metres, system, "up");
  return (
    <div id="no-longer-holds">
      <Table
        caption="Distances that no longer hold: at the limit → in this wind"
        rows={machines}
        rowKey={({ machineId }) => machineId}
        columns={[
          {
            key: "machine",
            head: "Machine",
            rowHead: true,
            cell: ({ machineName, firingPointNumber }) => `${machineName}, firing point ${firingPointNumber}`,
          },
          {
            key: "distances",
            head: "Distances",
            cell: ({ state, atLimit, now }) =>
              now
                ? (["forward", "backward", "side"] as const).map((which) => (
                    <div key={which}>
                      {which}{" "}
                      <span className={styles.pair}>
                        {atLimit ? distance(atLimit[which]) : "not known"}{" "}
                        <span role="img" aria-label="becomes">
                          →
                        </span>{" "}
                        <strong>{distance(now[which])}</strong>
                      </span>
                    </div>
                  ))
                : state === "failed"
                  ? "not computed: no zone"
                  : "being computed: keep everyone away",
          },
        ]}
      />
    </div>
  );
}

function Reading({
  reading,
  wind: { limit, atLimitHeight },
  system,
}: {
  reading: WindReadingInfo;
  wind: WindOfDay;
  system: UnitSystem;
}) {
  const { speed, gust, direction, height, observer, observedAt, expiresAt } = reading;
  const differs = atLimitHeight && Math.abs(height - limit.height) > 0.01;
  return (
    <p>
      {observer} read <strong>gusts to {speedText(gust, system)}</strong>, mean {speedText(speed, system)},{" "}
      {meanWord(reading)}, from the {compassPoint(direction)} ({bearingText(direction)}) at{" "}
      <LocalTime iso={observedAt} />, {heightText(height, system)} above the ground
      {differs
        ? `; at the limit’s height of ${heightText(limit.height, system)} that is ${speedText(atLimitHeight.gust, system)}`
        : ""}
      . It counts until <LocalTime iso={expiresAt} />.
    </p>
  );
}

function limitWords({ limit }: WindOfDay, system: UnitSystem): string {
  if (limit.gust === 0) return "No wind is set in which machines may fire: sheets hold in still air.";
  return `Machines may fire in gusts to ${speedText(limit.gust, system)} at ${heightText(limit.height, system)}.`;
}

const speedText = (speed: number, system: UnitSystem) =>
  formatQuantity(speed, "speed", system, { digits: 1 });
const heightText = (height: number, system: UnitSystem) =>
  formatQuantity(height, "distance", system, { digits: Number.isInteger(height) ? 0 : 1 });
