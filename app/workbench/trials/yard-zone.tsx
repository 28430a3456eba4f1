"use client";
/** Behind which distances these numbers are thrown: the practice yard's zone, if it is of them. */
import Link from "next/link";
import { useEffect, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import { accuracyWords } from "@/app/_ui/zones/zone-distances";
import type { HazardRequest, HazardSheet } from "@/lib/throw";
import { zoneDistances } from "@/lib/zones/zone-distances";
import { keptZone, zoneKey } from "../yard/kept-zone";
import { questionOf } from "../yard/question";
import { useYard } from "../yard/use-yard";
import { standOf } from "../yard/yard";

export function YardZoneOf({ request }: { request: HazardRequest }) {
  const system = useUnits();
  const { now } = useYard();
  const yard = now.state === "there" ? now.yard : null;
  const [exclusion, setExclusion] = useState<HazardSheet["exclusion"] | null>(null);
  useEffect(() => {
    const question = yard && questionOf(request, yard);
    const zone = question && keptZone();
    setExclusion(zone && zone.key === zoneKey(question) ? zone.answer.sheet.exclusion : null);
  }, [request, yard]);

  if (now.state === "reading") return null;
  const stand = yard && standOf(yard);
  if (!exclusion || !stand)
    return (
      <Caution kind="prohibition" title="throw while no zone is of these numbers">
        <p>
          {stand
            ? "The practice yard holds no zone of the numbers on the bench."
            : "No yard is laid out with a firing point and a bearing, so nobody knows how far to keep off."}{" "}
          <Link href="/workbench/yard">Work it out in the practice yard</Link>, and see what it touches.
        </p>
      </Caution>
    );
  const { forward, backward, side } = zoneDistances(exclusion, stand.accuracy);
  const accuracy = accuracyWords(stand.accuracy, system);
  return (
    <p>
      In the practice yard, from firing point {stand.number} on bearing {bearingText(stand.bearing)}, the zone
      of these numbers reaches {keepOffBoth(forward, system)} forward, {keepOffBoth(backward, system)}{" "}
      backward and {keepOffBoth(side, system)} to the side.{accuracy && ` ${accuracy}`}{" "}
      <Link href="/workbench/yard">What it touches, and who stands clear</Link>.
    </p>
  );
}
