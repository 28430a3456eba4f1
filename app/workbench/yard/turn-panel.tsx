"use client";
/** Which way the machine may throw without touching anything, and the least that would cure a conflict. */
import { useMemo } from "react";
import { Button } from "@/app/_ui/button";
import { bearingText } from "@/app/_ui/words";
import { BearingArcs } from "@/app/_ui/zones/bearing-arcs";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import type { ClearBearings } from "@/lib/zones";
import type { ZoneAnswer } from "./question";
import { standOf, type Yard } from "./yard";
import { curesOf, type YardCure, type YardZone } from "./zone";

const WAYS = { left: "to the left", right: "to the right", ahead: "ahead", back: "back" } as const;

const words = (cure: YardCure, system: UnitSystem) =>
  cure.kind === "turn"
    ? `Turn it ${Math.abs(cure.turn)
        .toFixed(2)
        .replace(
          /\.?0+$/,
          "",
        )}° ${cure.turn < 0 ? "to the left" : "to the right"}, to ${bearingText(cure.bearing)}`
    : `Move it ${formatQuantity(cure.distance, "distance", system, { digits: 1 })} ${WAYS[cure.direction]}`;

export function TurnPanel({
  yard,
  zone,
  answer,
  clear,
  system,
  onTurn,
}: {
  yard: Yard;
  zone: YardZone;
  answer: ZoneAnswer;
  /** Null where the reach holds on one bearing alone. */
  clear: ClearBearings | null;
  system: UnitSystem;
  onTurn: (bearing: number) => void;
}) {
  const touches = zone.properties.conflicts.some(({ inConflict }) => inConflict);
  const cures = useMemo(
    () => (clear && touches ? curesOf(yard, answer, clear) : []),
    [yard, answer, clear, touches],
  );
  const bearing = standOf(yard)?.bearing ?? 0;
  const names = new Map(yard.features.map(({ id, name }) => [id, name]));
  return (
    <section aria-labelledby="turn-title">
      <h2 id="turn-title">Which way it may throw</h2>
      {clear ? (
        <>
          <p>
            The ring on the map says the same: thick where it is clear, thin and broken where something is in
            the way.
          </p>
          <BearingArcs
            clear={clear.clear}
            blocked={clear.blocked.map((arc) => ({
              ...arc,
              by: arc.by.map((id) => ({ name: names.get(id) ?? "" })),
            }))}
            bearing={bearing}
          />
        </>
      ) : (
        <p>
          Told where the ground is level or its heights are laid out here: this reach holds on this bearing
          alone.
        </p>
      )}
      {touches && clear && (
        <>
          <h3>What would cure it</h3>
          {cures.length === 0 ? (
            <p>
              {yard.spotHeights.length > 0
                ? "No turn is enough; steps aside are not sought where heights are laid out, as the ground is another there."
                : "No turn and no step aside is enough."}{" "}
              Throw less, or test elsewhere.
            </p>
          ) : (
            <ul>
              {cures.map((cure) => (
                <li key={words(cure, "metric")}>
                  {words(cure, system)}{" "}
                  {cure.kind === "turn" && (
                    <Button onClick={() => onTurn(cure.bearing)}>
                      Aim it at {bearingText(cure.bearing)}
                    </Button>
                  )}
                </li>
              ))}
            </ul>
          )}
        </>
      )}
    </section>
  );
}
