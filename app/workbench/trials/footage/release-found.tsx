"use client";
/** The release that a film shows, beside the model's, and into a throw of the log. */
import { Button } from "@/app/_ui/button";
import { SelectField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { type HazardRequest, trials, type tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import type { Throw } from "../log/log";
import { markText, whenText } from "../log/words";
import { AgainstModel } from "./against-model";
import type { Pace } from "./film-told";
import { objection, ReleaseChecks } from "./release-checks";

const SOURCES: Record<trials.FootageSource, string> = {
  taps: "Tapping the points",
  clock: "The times of the frames",
  scale: "The known lengths, and how far off the plane they lie",
  level: "The camera leaning",
  square: "The camera off the square",
  shutter: "Rows of a frame read one after the other",
  timing: "The pace of the film",
  drag: "Drag and lift",
  wind: "Wind",
  instant: "When it slipped between two frames",
};

export function ReleaseFound({
  found,
  pace,
  counted,
  request,
  efficiency,
  setting,
  made,
  throws,
  onThrow,
  onTurn,
  onPaceByFall,
  onWrite,
  system,
}: {
  found: trials.FootageResult;
  pace: Pace;
  counted: boolean;
  /** As it stood at the throw that is chosen. */
  request: HazardRequest;
  efficiency: number | null;
  setting: tuning.Knob;
  made: Throw | undefined;
  throws: readonly Throw[];
  onThrow: (id: string) => void;
  onTurn: () => void;
  onPaceByFall: () => void;
  onWrite: (made: Throw, film: NonNullable<Throw["film"]>) => void;
  system: UnitSystem;
}) {
  if (!found.ok)
    return (
      <Notice kind="problem" title="No release yet">
        <p>{REFUSED[found.why]}</p>
      </Notice>
    );
  const { speed, launchAngle, slingAngle, between, budget, points, coverage, wind } = found;
  const against = objection(found, pace);
  const told = ({ value, uncertainty }: trials.Told, dimension: "speed" | "angle") =>
    formatUncertain(value, uncertainty, dimension, system);
  const windAt = (value: number) => formatQuantity(value, "speed", system, { digits: 1 });
  return (
    <>
      <h3>The release, from {points} frames</h3>
      <p data-told="release">
        <strong>
          {told(speed, "speed")} at {told(launchAngle, "angle")}
        </strong>{" "}
        above the horizontal; 95 times in 100 it lies within the ±.{" "}
        {slingAngle
          ? `The sling stood at ${told(slingAngle, "angle")} to the line of the arm, between the frames at ${between[0].toFixed(3)} s and ${between[1].toFixed(3)} s.`
          : "Tap pivot, tip and projectile on the last frame in the sling and the first free one, and the sling's angle is told too."}
      </p>
      <ReleaseChecks
        found={found}
        pace={pace}
        counted={counted}
        onTurn={onTurn}
        onPaceByFall={onPaceByFall}
        system={system}
      />
      {found.fall.verdict === "agrees" || found.fall.verdict === "open" ? (
        <AgainstModel
          found={found}
          request={request}
          efficiency={efficiency}
          setting={setting}
          made={made}
          number={made ? throws.indexOf(made) + 1 : null}
          system={system}
        />
      ) : null}
      <details>
        <summary>What the ± comes from</summary>
        <Table
          caption="What the ± comes from, each by itself"
          rows={trials.FOOTAGE_SOURCES}
          rowKey={(source) => source}
          columns={[
            { key: "source", head: "Source", rowHead: true, cell: (source) => SOURCES[source] },
            {
              key: "speed",
              head: "Speed",
              number: true,
              cell: (source) => formatQuantity(budget[source].speed, "speed", system, { digits: 2 }),
            },
            {
              key: "angle",
              head: "Direction",
              number: true,
              cell: (source) => formatQuantity(budget[source].angle, "angle", system, { digits: 2 }),
            },
          ]}
        />
        <p>
          These are standard uncertainties, two of three lie within them. Taken together and times k ={" "}
          {coverage.speed.toFixed(1)} for the speed and {coverage.angle.toFixed(1)} for the direction they
          make the ± above: Student&rsquo;s t for 95 %, more than 2 where few points were tapped.
        </p>
      </details>
      <p data-told="wind">
        {made?.wind
          ? "The wind written with the throw"
          : "Nobody read the wind at the throw: what the bench has"}{" "}
        is taken, {windAt(Math.abs(wind.along))} {wind.along < 0 ? "against the throw" : "along with it"}, ±{" "}
        {windAt(wind.within)}.
      </p>
      <details>
        <summary>What this leaves out</summary>
        <ul>
          <li>A camera that moves: tap the pivot again on a late frame and see whether it stays.</li>
          <li>
            A lens that bends straight lines at the edge of the picture, by some per cent at its widest
            (common practice, no source): the speed is wrong by as much, the direction by a degree or two.
            Keep the throw in the middle, and zoom in.
          </li>
          <li>A slow-motion film that a phone plays at two speeds: tap frames of its slow part alone.</li>
          <li>
            A pouch that holds the projectile for an instant after the loop has slipped: count as free what
            has left the pouch.
          </li>
          <li>A streak that is tapped at its head in one frame and at its tail in the next.</li>
        </ul>
      </details>
      {made ? (
        <>
          <SelectField
            id="film-throw"
            label="Which throw it was"
            value={made.id}
            onChange={(event) => onThrow(event.target.value)}
            choices={throws.map((each, index) => ({
              value: each.id,
              label: `${index + 1}. ${markText(each, system)}, ${whenText(each.at)}`,
            }))}
          />
          {against ? (
            <p>{against}</p>
          ) : (
            <p className="button-row">
              <Button look="main" onClick={() => onWrite(made, { speed, launchAngle, slingAngle })}>
                Write the release into throw {throws.indexOf(made) + 1}
              </Button>
            </p>
          )}
        </>
      ) : (
        <p>Write a throw down, and the release can be written into it.</p>
      )}
    </>
  );
}

const REFUSED: Record<trials.FootageRefusal, string> = {
  scale: "The two ends of a known length lie too near to each other: tap a longer one.",
  plumb: "The two ends of the plumb line lie too near to each other: tap them farther apart.",
  "few-points": `Tap the projectile on ${trials.FEWEST_POINTS} frames or more after the loop has slipped.`,
  held: "Go back to the last frame in which the loop surely holds, and say so.",
  order:
    "The frame in which the loop surely holds comes after the one in which it has slipped: say both anew.",
  pace: "The points do not fall clearly enough for the time to be taken from them: tap more frames, farther apart, or say how it was filmed.",
};
