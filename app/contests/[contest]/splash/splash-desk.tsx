"use client";
/** For whoever walks to a splash that spotters have seen: how far, which way, how sure, and not before they may. */
import { useEffect, useMemo, useState } from "react";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { useHeading } from "@/app/_ui/heading/use-heading";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { useOffline } from "@/app/_ui/offline/use-offline";
import { useUnits } from "@/app/_ui/units";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { ShotInfo } from "@/lib/api/contracts";
import { normalBearing } from "@/lib/earth/bearing";
import { type RoughPoint, wayThere } from "@/lib/survey";
import { useClock, useLitScreen, usePosition, type Watching } from "../walk/use-position";
import walk from "../walk/walk.module.css";
import { SplashMap } from "./splash-map";
import { knownPlaces, SightingTable, WayTable } from "./splash-tables";
import { type Splashes, useSplashes } from "./use-splashes";
import { searchWords, WayPanel } from "./way-panel";

/** A position older than this says where the phone was, ms. */
const OLD = 10_000;

const titleOf = (shot: ShotInfo) => `Round ${shot.round}, ${shot.entrantNumber} ${shot.entrantName}`;

export function SplashDesk({
  slug,
  site,
  height,
  declination,
  initial,
  sequence,
}: {
  slug: string;
  site: Site;
  /** Of the ground, m above the ellipsoid. */
  height: number;
  declination: number;
  /** As the server had them when it made the page. */
  initial: Splashes;
  /** Of the newest scorebook entry that the page was made with. */
  sequence: number;
}) {
  const system = useUnits();
  const { splashes, online } = useSplashes(slug, initial, sequence);
  const { watching, fix, start } = usePosition();
  const { compass, reading, start: turn } = useHeading();
  const now = useClock(watching === "watching");
  useLitScreen(watching === "watching");
  const offline = useOffline(["splash", "walk", "map"].map((page) => `/contests/${slug}/${page}`));
  const [chosen, setChosen] = useState<string | null>(null);

  const [newest] = splashes.shots;
  const shot = splashes.shots.find(({ id }) => id === chosen) ?? newest ?? null;
  const located = shot?.rough?.located ?? null;
  // Who is on the way to a splash stays on it when the next one is seen.
  const held = located ? shot?.id : null;
  useEffect(() => {
    if (held) setChosen(held);
  }, [held]);

  const point = useMemo<RoughPoint | null>(
    () => located && { point: located, covariance: located.covariance },
    [located],
  );
  const position = watching === "watching" ? fix : null;
  const way = point && position && wayThere(position, position.accuracy, point, height);
  const age = position ? Math.max(0, now - position.at) : 0;
  const heading = compass === "reading" && reading ? normalBearing(reading.bearing + declination) : null;

  return (
    <>
      <Caution kind="mandatory" title="wait until the range is cold">
        <p>
          Nobody walks before the safety officer has said that the range is cold, and who may go. Horn, flag
          or call end the walk at once. Do not pick up what lies there before the safety officer has said so.
        </p>
      </Caution>
      {shot === null ? (
        <p>
          No splash has been sighted yet. When two posts have sent where they saw one, the way to it is here.
        </p>
      ) : (
        <>
          <h2>{titleOf(shot)}</h2>
          {newest && newest.id !== shot.id && (
            <Notice title="A newer splash" live>
              <p>{titleOf(newest)} has been sighted since.</p>
              <Button onClick={() => setChosen(newest.id)}>Go to {newest.entrantName}</Button>
            </Notice>
          )}
          {shot.fix && <p>A judge has entered this shot already.</p>}
          {!point && <NoPoint shot={shot} />}
          {located && way && (
            <WayPanel
              way={way}
              ellipse={located.ellipse}
              age={age > OLD ? Math.round(age / 1000) : null}
              heading={heading}
              system={system}
            />
          )}
          {located && !way && (
            <>
              <Unplaced watching={watching} start={start} />
              <p>Search {searchWords(located.ellipse, system)}.</p>
            </>
          )}
          {way && compass === "ready" && (
            <p>
              <Button onClick={() => void turn()}>Turn the arrow with this phone</Button>
            </p>
          )}
          {located && shot.rough && <Doubts warnings={shot.rough.warnings} />}
          {point && <WayTable places={knownPlaces(shot, site, point, height)} system={system} />}
          <SplashMap
            slug={slug}
            site={site}
            shot={shot}
            phone={position}
            height={height}
            system={system}
            describedBy="sightings"
          />
          <SightingTable id="sightings" shot={shot} />
          {splashes.shots.length > 1 && (
            <SelectField
              id="splash-shot"
              label="Shot"
              help="The newest sighted first."
              value={shot.id}
              onChange={(event) => setChosen(event.target.value)}
              choices={splashes.shots.map((one) => ({ value: one.id, label: titleOf(one) }))}
            />
          )}
        </>
      )}
      <p className={walk.heard} role="status">
        {online ? (
          "Connected: a new sighting shows by itself."
        ) : (
          <>
            Not connected. The sightings are those of <LocalTime iso={splashes.at} day />, kept on this phone;
            its position works on without a network.
          </>
        )}{" "}
        {offline === "ready" && "This page opens from this phone without a network."}
      </p>
    </>
  );
}

function NoPoint({ shot }: { shot: ShotInfo }) {
  if (shot.rough)
    return (
      <Notice kind="problem" title="No point comes out">
        <p>{shot.rough.warnings[0]?.text}</p>
      </Notice>
    );
  const seen = shot.sightings.filter(({ bearing }) => bearing !== null);
  return (
    <p role="status">
      {seen.length === 0
        ? "No post has seen it."
        : `Only ${seen[0]?.postName} has seen it so far: a point needs two posts.`}
    </p>
  );
}

/** What the bearings themselves say of the point; that it is rough stands on the page already. */
function Doubts({ warnings }: { warnings: NonNullable<ShotInfo["rough"]>["warnings"] }) {
  const told = warnings.filter(({ code }) => code !== "coarse");
  if (told.length === 0) return null;
  return (
    <Notice title="The point is doubtful">
      <ul>
        {told.map(({ code, text }) => (
          <li key={code + text}>{text}</li>
        ))}
      </ul>
    </Notice>
  );
}

function Unplaced({ watching, start }: { watching: Watching; start: () => void }) {
  if (watching === "ready" || watching === "denied")
    return (
      <div className={walk.panel}>
        <p>
          {watching === "denied"
            ? "This phone was told not to give its position here: allow it in the browser’s settings, or pace the way from a known place."
            : "With this phone’s position the way is shown from where you stand."}
        </p>
        <Button look="main" wide onClick={start}>
          Start
        </Button>
      </div>
    );
  return (
    <p role="status">
      {watching === "insecure"
        ? "This page did not come over https, so the phone does not give its position: pace the way from a known place."
        : watching === "unable"
          ? "This browser gives no position: pace the way from a known place."
          : "Waiting for this phone’s position. Meanwhile the way is given from known places."}
    </p>
  );
}
