"use client";
/** What speaks for or against a release read off a film, and whether it may be written down. */
import type { ReactNode } from "react";
import { Button } from "@/app/_ui/button";
import { Notice } from "@/app/_ui/notice";
import type { trials } from "@/lib/throw";
import { formatUncertain, type UnitSystem } from "@/lib/units";
import type { Pace } from "./film-told";

export type Found = Extract<trials.FootageResult, { ok: true }>;

/** Why it must not be written down yet; null where nothing speaks against it. */
export function objection({ fall }: Found, pace: Pace): string | null {
  if (fall.verdict === "leans" || fall.verdict === "time")
    return "It is not written down while the fall of the points contradicts it.";
  if (pace === "unsaid" && fall.verdict === "open")
    return "It can be written down once it is said above how the film was made.";
  return null;
}

export function ReleaseChecks({
  found,
  pace,
  counted,
  onTurn,
  onPaceByFall,
  system,
}: {
  found: Found;
  pace: Pace;
  /** Times of frames were counted, not told by the browser. */
  counted: boolean;
  onTurn: () => void;
  onPaceByFall: () => void;
  system: UnitSystem;
}) {
  const { fall, slower, points, launchAngle, roughness, lengthsOff } = found;
  return (
    <>
      {found.backwards ? (
        <Notice kind="problem" title="It leaves backwards">
          <p>
            By the film it flies to the other side than was told:{" "}
            {formatUncertain(launchAngle.value, launchAngle.uncertainty, "angle", system)} is behind the
            upright. If the machine throws to that side of the picture, turn it over. If it truly threw
            backwards, this is where it went.
          </p>
          <p className="button-row">
            <Button onClick={onTurn}>It throws to the other side of the picture</Button>
          </p>
        </Notice>
      ) : null}
      <FallWords found={found} pace={pace} onPaceByFall={onPaceByFall} />
      {pace === "unknown" && slower ? (
        <p data-told="pace">
          Nobody knows how it was filmed, so its time is that of the fall: it plays{" "}
          {formatUncertain(slower.value, slower.uncertainty, "ratio", system)} times slower than the throw
          was. Nothing is left to check scale and time by.
        </p>
      ) : null}
      {roughness !== null && roughness > 2.5 && fall.verdict !== "time" && fall.verdict !== "leans" ? (
        <Notice title="The points scatter more than they should">
          <p>
            {roughness.toFixed(1)} times as much as was said of the taps: look for a frame that is tapped
            wrong, a camera that moved, or a film that was cut. The uncertainty counts it.
          </p>
        </Notice>
      ) : null}
      {lengthsOff !== null ? (
        <Notice kind="problem" title="The two lengths do not agree">
          <p>
            Their scales are {(100 * lengthsOff).toFixed(0)} % off their mean, more than measuring and a
            camera off the square explain: one is wrong, or does not lie in the plane of the throw. The
            uncertainty counts it.
          </p>
        </Notice>
      ) : null}
      {counted ? (
        <Notice title="Times are counted">
          <p>
            The browser did not tell the time of every frame: it was counted at the rate of the file, to
            within a frame. In a file whose rate changes it is wrong.
          </p>
        </Notice>
      ) : null}
      {points < 4 ? (
        <p>
          {points} points check little: six or more make the uncertainty smaller, and show a point that was
          tapped wrong.
        </p>
      ) : null}
    </>
  );
}

/** Of the fall: it knows gravity, so it judges time, scale and level. */
function FallWords({
  found: { fall, slower, points },
  pace,
  onPaceByFall,
}: {
  found: Found;
  pace: Pace;
  onPaceByFall: () => void;
}): ReactNode {
  const { verdict, size, tilt } = fall;
  if (pace === "unknown") return null;
  const told =
    size && `${formatUncertain(size.value, size.uncertainty, "ratio", "metric")} times what gravity makes it`;
  if (verdict === "leans" && size && tilt)
    return (
      <Notice kind="problem" title="The picture does not stand upright">
        <p>
          The projectile falls {Math.abs(tilt.value).toFixed(0)}° ± {tilt.uncertainty.toFixed(0)}° off
          straight down: the film lies on its side or on its head, the camera leant more than was said, or it
          moved. Tap a plumb line, or turn the film. Do not use these numbers.
        </p>
      </Notice>
    );
  if (verdict === "time" && size)
    return (
      <Notice kind="problem" title="Scale or time is wrong">
        <p>
          The projectile falls {told}: as if the film played{" "}
          {slower
            ? slower.value > 1
              ? `${slower.value.toFixed(slower.value < 3 ? 2 : 1)} ± ${slower.uncertainty.toFixed(slower.uncertainty < 0.1 ? 2 : 1)} times slower than told`
              : `${(1 / slower.value).toFixed(2)} times faster than told`
            : "far slower than told"}
          , or the known length were wrong. Do not use these numbers before that is found.
        </p>
        {slower ? (
          <p className="button-row">
            <Button onClick={onPaceByFall}>Take the time from the fall</Button>
          </p>
        ) : null}
      </Notice>
    );
  if (verdict === "agrees" && size)
    return (
      <p data-told="fall">
        The points fall {told}: time is right to within {((50 * size.uncertainty) / size.value).toFixed(0)} %,
        if the known length is.
      </p>
    );
  return (
    <Notice kind={pace === "unsaid" ? "problem" : "note"} title="The frame rate is not checked">
      <p>
        {size
          ? `The ${points} points fall ${told}: too little to tell whether the film plays at true speed.`
          : `${points} points do not show a fall, so nothing tells whether the film plays at true speed.`}{" "}
        In slow motion played as a usual film the speed would be many times too low. Tap more frames, farther
        apart
        {pace === "unsaid"
          ? ", or say above how it was filmed."
          : `. It is taken as you say: ${pace === "slow" ? "in slow motion" : "at true speed"}.`}
      </p>
    </Notice>
  );
}
