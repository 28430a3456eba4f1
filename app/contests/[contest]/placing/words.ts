/** What is tried, found and counted, in words and in the reader's units. */
import { bearingText } from "@/app/_ui/words";
import type { Cure, Cures } from "@/lib/api/contracts";
import { type Dimension, formatQuantity, type UnitSystem } from "@/lib/units";

export const metres = (value: number, system: UnitSystem) =>
  formatQuantity(value, "distance", system, { digits: value < 10 ? 1 : 0 });

const plain = (value: number, decimals: number) => String(Number(value.toFixed(decimals)));

export const turnWords = (turn: number) =>
  `${plain(Math.abs(turn), 2)}° ${turn < 0 ? "to the left" : "to the right"}`;

export const strengthText = (
  { title, dimension }: { title: string; dimension: string },
  value: number,
  system: UnitSystem,
) =>
  `${title} ${formatQuantity(value, dimension as Dimension, system, { digits: dimension === "ratio" ? 2 : 1 })}`;

const WAYS = {
  left: "to the left",
  right: "to the right",
  ahead: "ahead, the way it throws",
  back: "back, away from where it throws",
} as const;

export function cureTitle(cure: Cure, system: UnitSystem): string {
  switch (cure.kind) {
    case "turn":
      return `Turn it ${turnWords(cure.turn)}, to ${bearingText(cure.bearing)}`;
    case "point": {
      const turn = cure.turn === 0 ? "on the same bearing" : `turned ${turnWords(cure.turn)}`;
      return `Move it to firing point ${cure.firingPointNumber}, ${metres(cure.distance, system)} away, ${turn}`;
    }
    case "shift":
      return `Move it ${metres(cure.distance, system)} ${WAYS[cure.direction]}`;
    case "crowd":
      return `Move ${cure.moves
        .map((move) => `${move.name} ${metres(move.distance, system)} on ${bearingText(move.bearing)}`)
        .join(", and ")}`;
    case "barrier":
      return `A barrier ${metres(cure.height, system)} high and ${metres(cure.length, system)} long, ${metres(cure.distance, system)} from the machine`;
    case "strength":
      return `${strengthText(cure.strength, cure.value, system)} at most, in place of ${strengthText(
        { ...cure.strength, title: "" },
        cure.strength.declared,
        system,
      ).trim()}`;
  }
}

/** What it costs in distance thrown. */
export function distanceWords({ nominalBefore, nominalAfter }: Cure, system: UnitSystem): string {
  if (nominalBefore === null || nominalAfter === null) return "It throws nothing as meant.";
  const [before, after] = [metres(nominalBefore, system), metres(nominalAfter, system)];
  return before === after
    ? `It throws as far as before: ${after} as meant.`
    : `It throws ${after} as meant, ${before} before.`;
}

const KINDS: Record<
  Cures["costs"][number]["kind"],
  [title: string, each: "degree" | "metre" | "percent" | "area"]
> = {
  turn: ["Turning it", "degree"],
  point: ["Moving it to a free firing point", "metre"],
  shift: ["Moving it to a new firing point", "metre"],
  crowd: ["Moving what is touched, each feature", "metre"],
  strength: ["A weaker machine", "percent"],
  barrier: ["A barrier that the safety officer signs for", "area"],
};

export const kindWords = (kind: keyof typeof KINDS) => KINDS[kind][0];

/** A rule of thumb in the reader's units: metres or feet. */
export function costWords({ kind, once, each }: Cures["costs"][number], system: UnitSystem): string {
  const [title, what] = KINDS[kind];
  const feet = what === "metre" && system === "us";
  const per = {
    degree: "degree",
    metre: feet ? "foot" : "metre",
    percent: "percent of its distance that it loses",
    area: system === "us" ? "square foot of it" : "square metre of it",
  };
  const unit = system === "metric" ? 1 : { degree: 1, percent: 1, metre: 0.3048, area: 0.3048 ** 2 }[what];
  return `${title}: ${plain(once, 1)} points, and ${plain(each * unit, 3)} for each ${per[what]}.`;
}

export const points = (cost: number) => `${plain(cost, 1)} points`;
