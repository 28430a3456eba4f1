"use client";
/** All zones of the day together, and how high anything flies: what landowner and aerodrome ask for. */
import { bothUnits } from "@/app/_ui/both-units";
import { namesOf } from "@/app/_ui/zones/zoneless";
import type { Zones } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";

export function DayWords({ zones, system }: { zones: Zones; system: UnitSystem }) {
  const { union, highest, without } = zones;
  if (union.geometry === null) return null;
  const metres = (value: number) => bothUnits(value, "distance", system, { digits: 0 });
  return (
    <section aria-labelledby="day-title">
      <h2 id="day-title">All zones together</h2>
      {without.length > 0 && (
        <p>
          <strong>
            Not all: {namesOf(without)} {without.length === 1 ? "has" : "have"} no zone, and{" "}
            {without.length === 1 ? "is" : "are"} in none of these numbers nor in the outline.
          </strong>
        </p>
      )}
      <p>
        They cover {bothUnits(union.area, "area", system, { digits: 0 })}.
        {union.filled > 0 &&
          ` That counts ${union.filled === 1 ? "a place" : `${union.filled} places`} which the zones enclose on all sides: nobody comes there or leaves without crossing one.`}
      </p>
      {highest && (
        <p>
          The highest throw computed is {highest.machineName}’s: {metres(highest.apex)} above the ground of
          its firing point, {metres(highest.top)} above the ellipsoid, as satellite receivers count heights.
          The local aerodrome counts from sea level, which can differ by 100 m.
        </p>
      )}
    </section>
  );
}
