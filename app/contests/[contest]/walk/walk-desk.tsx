"use client";
/** For a phone in the field: whose zone it stands in and how deep, or how far off the nearest is. */
import { useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { formatQuantity } from "@/lib/units";
import { walkGround, walkState } from "@/lib/zones/walk";
import { StandPanel } from "./stand-panel";
import { useClock, useLitScreen, usePosition, type Watching } from "./use-position";
import { useZones } from "./use-zones";
import styles from "./walk.module.css";

/** A position older than this says where the phone was, ms. */
const OLD = 10_000;
/** A position less exact than this is told, m. */
const VAGUE = 20;

export function WalkDesk({
  slug,
  middle,
  sequence,
}: {
  slug: string;
  /** Of the site. */
  middle: { latitude: number; longitude: number; height: number };
  /** Of the newest scorebook entry that the page was made with. */
  sequence: number;
}) {
  const system = useUnits();
  const { zones, online, stale } = useZones(slug, sequence);
  const { watching, fix, start } = usePosition();
  const now = useClock(watching === "watching");
  useLitScreen(watching === "watching");
  const [choice, setChoice] = useState("all");

  const machines = zones?.machines ?? [];
  const chosen = machines.some(({ id }) => id === choice) ? choice : "all";
  const ground = useMemo(
    () =>
      walkGround(
        (zones?.machines ?? []).flatMap(({ id, geometry }) =>
          geometry && (chosen === "all" || chosen === id) ? [{ id, geometry }] : [],
        ),
        middle,
        middle.height,
      ),
    [zones, chosen, middle],
  );
  const state = useMemo(() => fix && walkState(ground, fix), [ground, fix]);
  const missing = machines.filter(({ id, geometry }) => !geometry && (chosen === "all" || chosen === id));
  const age = fix ? Math.max(0, now - fix.at) : 0;
  const names = useMemo(
    () => new Map((zones?.machines ?? []).map(({ id, machine }) => [id, machine])),
    [zones],
  );

  return (
    <>
      {(stale || missing.length > 0) && (
        <Caution title={missing.length > 0 ? "a zone is missing" : "the zones are being computed anew"}>
          {missing.map(({ id, machine, lack }) => (
            <p key={id}>
              There is no zone of {machine}. {lack} This page cannot tell you of it: keep away from the
              machine.
            </p>
          ))}
          {stale && zones && (
            <p>
              Something has changed, and the zones are being computed anew. Until then these are the old ones,
              of <LocalTime iso={zones.at} day />: keep well away from every machine.
            </p>
          )}
        </Caution>
      )}
      {watching === "watching" && fix && zones ? (
        <StandPanel
          state={state ?? { where: "nowhere" }}
          names={names}
          age={age > OLD ? age : null}
          system={system}
        />
      ) : (
        <NotYet watching={watching} start={start} zones={zones !== null} />
      )}
      {fix && watching === "watching" && (
        <p className={styles.exact}>
          {fix.accuracy > VAGUE && <strong>Inexact position. </strong>}
          The phone says it is within {formatQuantity(fix.accuracy, "distance", system, { digits: 0 })}; that
          is counted against you.
          {fix.accuracy > VAGUE && " Go where the sky is open, and wait for it to become better."}
        </p>
      )}
      <SelectField
        id="walk-zones"
        label="Zones that count"
        help="All of them, or that of the machine that fires."
        value={chosen}
        onChange={(event) => setChoice(event.target.value)}
        choices={[
          { value: "all", label: `All machines (${machines.length})` },
          ...machines.map(({ id, machine, firingPoint }) => ({
            value: id,
            label: `Only ${machine}, firing point ${firingPoint}`,
          })),
        ]}
      />
      <p className={styles.heard} role="status">
        {zones === null ? (
          "No zones yet: they come from the server."
        ) : online && stale ? (
          "The zones are being computed anew; those shown are from before."
        ) : online ? (
          "The zones are as the server has them now."
        ) : (
          <>
            No network. The zones are those of <LocalTime iso={zones.at} day />, kept on this phone; the
            position works on without a network.
          </>
        )}
      </p>
      <Caution title="a line on a phone keeps nobody away from harm">
        <p>
          {zones?.caution ?? "Failures may go farther than any zone."} Horn, flags and officials come first.
        </p>
      </Caution>
    </>
  );
}

function NotYet({ watching, start, zones }: { watching: Watching; start: () => void; zones: boolean }) {
  if (watching === "insecure")
    return (
      <Notice kind="problem" title="No position on this page">
        <p>
          This page did not come over https, so the phone does not give its position here. Open it at the
          fair&rsquo;s https address, or read the distances from the map and pace them out.
        </p>
      </Notice>
    );
  if (watching === "unable")
    return (
      <Notice kind="problem" title="No position on this device">
        <p>This browser has no position to give. Use a phone with a receiver, or the map.</p>
      </Notice>
    );
  if (watching === "denied")
    return (
      <Notice kind="problem" title="The position is not allowed">
        <p>
          This phone was told not to give its position here. Allow it in the browser&rsquo;s settings for this
          page, then press Start.
        </p>
        <Button look="main" wide onClick={start}>
          Start
        </Button>
      </Notice>
    );
  return (
    <div className={styles.panel}>
      <p className={styles.headline}>Not known</p>
      {watching === "ready" ? (
        <>
          <p>
            This page tells whose keep-out zone you stand in, and how deep. It needs this phone&rsquo;s
            position.
          </p>
          <Button look="main" wide onClick={start}>
            Start
          </Button>
        </>
      ) : (
        <p>
          {watching === "watching" && !zones
            ? "The position is known; the zones are not here yet."
            : "Waiting for this phone’s position. Go where the sky is open."}
        </p>
      )}
    </div>
  );
}
