"use client";
import { compassPoint } from "@/app/_ui/compass";
/** How far and which way, from where the phone is. */
import { Direction } from "@/app/_ui/direction";
import { wholeDistance } from "@/app/_ui/kept-distance";
import { bearingText } from "@/app/_ui/words";
import type { RoughPointInfo } from "@/lib/api/contracts";
import type { WayThere } from "@/lib/survey";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import walk from "../walk/walk.module.css";

export function WayPanel({
  way,
  ellipse,
  age,
  heading,
  system,
}: {
  way: WayThere;
  ellipse: NonNullable<RoughPointInfo["located"]>["ellipse"];
  /** s, when the position is too old to say where the phone is now. */
  age: number | null;
  /** Where the phone points, degrees true; null without its compass. */
  heading: number | null;
  system: UnitSystem;
}) {
  return (
    <div className={walk.panel}>
      {age !== null && (
        <p className={walk.old} role="alert">
          The position is {age} s old: this is the way from where you were.
        </p>
      )}
      <p className={walk.headline} aria-live="assertive">
        {way.here ? "Look about here" : "To the splash"}
      </p>
      <p className={walk.far}>{formatQuantity(way.distance, "distance", system, { digits: 0 })}</p>
      <p className={walk.whose}>
        to the middle, ± {wholeDistance(way.uncertainty, system, "up")} (95 %, this phone&rsquo;s own accuracy
        counted)
      </p>
      <Direction bearing={way.bearing} heading={heading} words="It lies to the" />
      <p className={walk.others}>
        {way.here && "You are as near as these bearings and this phone can tell. "}
        Search {searchWords(ellipse, system)}.
      </p>
    </div>
  );
}

/** The ellipse in words. */
export function searchWords(
  { major, minor, bearing }: NonNullable<RoughPointInfo["located"]>["ellipse"],
  system: UnitSystem,
): string {
  const to = (metres: number) => wholeDistance(metres, system, "up");
  const back = (bearing + 180) % 360;
  return `${to(major)} to either side along ${bearingText(Math.round(bearing) % 360)} (${compassPoint(bearing)} and ${compassPoint(back)}), ${to(minor)} to either side across it: 95 % of such splashes lie there`;
}
