"use client";
/** What the pictures show at an instant, as figures; and the marked instants in one table. */
import { distanceText, heightText, loadText, speedText, stationText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { FilmInstant, Point, Reel } from "@/lib/throw";
import { inCupOf } from "./transport";
import { armWords, doingWords, markWords, momentText, zeroWords } from "./words";

interface Figure {
  what: string;
  value: string;
}

export function InstantTable({ reel, time, system }: { reel: Reel; time: number; system: UnitSystem }) {
  const instant = reel.at(time);
  return (
    <Table
      caption={`At ${momentText(instant.time)} ${zeroWords(reel.film)}: ${doingWords(instant)}`}
      rows={figuresOf(reel, instant, system)}
      rowKey={({ what }) => what}
      columns={[
        { key: "what", head: "What", rowHead: true, cell: ({ what }) => what },
        { key: "value", head: "At this instant", cell: ({ value }) => value },
      ]}
    />
  );
}

function figuresOf(reel: Reel, instant: FilmInstant, system: UnitSystem): Figure[] {
  const { machine, projectile } = instant;
  const figures: Figure[] = [];
  if (machine) {
    const { forces } = machine;
    figures.push({
      what: reel.film.request.machine.kind === "torsion" ? "Arm" : "Long arm",
      value: armWords(machine.angle),
    });
    figures.push({
      what: inCupOf(reel) ? "Push on the cup (S)" : "Sling tension (S)",
      value: forces ? loadText(forces.tension, "force", system) : "–",
    });
    figures.push({
      what: "Force on the pivot (P)",
      value: forces ? forceWords(forces.onPivot, system) : "–",
    });
    figures.push({
      what: "Largest bending of the arm",
      value: forces ? bendingWords(reel, forces.bending, system) : "–",
    });
  }
  figures.push(
    { what: "Speed of the projectile", value: speedText(projectile.speed, system) },
    {
      what: "Height of the projectile",
      value: heightText(Math.abs(projectile.y) < 0.005 ? 0 : projectile.y, system),
    },
    { what: "Projectile downrange", value: distanceText(projectile.x, system) },
  );
  if (Math.abs(projectile.z) >= 0.05)
    figures.push({
      what: "Projectile to the right of the bearing",
      value: distanceText(projectile.z, system),
    });
  return figures;
}

/** Size and direction of a force on the frame. */
function forceWords([x, y]: Point, system: UnitSystem): string {
  const size = Math.hypot(x, y);
  const part = (value: number, one: string, other: string) =>
    Math.abs(value) < 0.02 * size
      ? []
      : [`${loadText(Math.abs(value), "force", system)} ${value > 0 ? one : other}`];
  const parts = [...part(y, "up", "down"), ...part(x, "downrange", "uprange")];
  return parts.length > 1
    ? `${loadText(size, "force", system)}: ${parts.join(", ")}`
    : parts.join("") || loadText(size, "force", system);
}

function bendingWords({ stations }: Reel, bending: readonly number[], system: UnitSystem): string {
  let most = 0;
  for (let i = 1; i < bending.length; i++)
    if (Math.abs(bending[i] as number) > Math.abs(bending[most] as number)) most = i;
  const station = stations[most] as number;
  const where =
    station < -0.05 ? `${stationText(-station, system)}, on the short arm` : stationText(station, system);
  return `${loadText(Math.abs(bending[most] as number), "torque", system)}, ${where}`;
}

/** The film in figures: what its pictures show, for those who do not see them. */
export function MarkTable({ reel, system }: { reel: Reel; system: UnitSystem }) {
  const { film } = reel;
  const { kind } = film.request.machine;
  const rows = film.marks.map(({ of, time }) => ({ of, instant: reel.at(time) }));
  const force = (instant: FilmInstant, of: "tension" | "pivot") => {
    const forces = instant.machine?.forces;
    if (!forces) return "–";
    return loadText(of === "tension" ? forces.tension : Math.hypot(...forces.onPivot), "force", system);
  };
  const swung = film.swing !== null;
  return (
    <Table
      caption="The marked instants"
      rows={rows}
      rowKey={({ of }) => of}
      columns={[
        { key: "of", head: "Instant", rowHead: true, cell: ({ of }) => markWords(of, kind, inCupOf(reel)) },
        {
          key: "time",
          head: "When",
          number: true,
          cell: ({ instant }) => momentText(instant.time),
        },
        ...(swung
          ? [
              {
                key: "tension",
                head: "Tension",
                number: true,
                cell: (row: Row) => force(row.instant, "tension"),
              },
              { key: "pivot", head: "Pivot", number: true, cell: (row: Row) => force(row.instant, "pivot") },
            ]
          : []),
        {
          key: "speed",
          head: "Speed",
          number: true,
          cell: ({ instant }) => speedText(instant.projectile.speed, system),
        },
        {
          key: "up",
          head: "Height",
          number: true,
          cell: ({ instant }) => heightText(instant.projectile.y + 0, system),
        },
        {
          key: "along",
          head: "Downrange",
          number: true,
          cell: ({ instant }) => distanceText(instant.projectile.x, system),
        },
      ]}
    />
  );
}

type Row = { instant: FilmInstant };
