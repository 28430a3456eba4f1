/** What would help, in sentences. Numbers that must be reached are told a little higher, those not to pass a little lower. */
import { distanceText, loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Help, HelpCode, PartLoad } from "@/lib/throw";
import { type Dimension, formatQuantity } from "@/lib/units";

/** More than the rounding of a load takes away. */
const ROUNDING = 0.01;

export function helpText(help: Help, factor: number, system: UnitSystem): string {
  const { code, value, distance } = help;
  const atLeast = (dimension: Dimension) => loadText((value ?? 0) * (1 + ROUNDING), dimension, system);
  const atMost = (dimension: Dimension) => loadText((value ?? 0) * (1 - ROUNDING), dimension, system);
  const long = () => formatQuantity((value ?? 0) * (1 + ROUNDING / 2), "length", system, { digits: 2 });
  if (value === null) return IMPOSSIBLE[code] ?? "No such number is enough.";
  const thrown = distance === null ? "" : ` It then throws ${distanceText(distance, system)}.`;
  switch (code) {
    case "rope-rating":
      return `Rope rated ${atLeast("force")} each: one rope, knotted and wet, where nothing else is declared.`;
    case "rope-rating-spliced":
      return `Spliced instead of knotted: rope rated ${atLeast("force")} each.`;
    case "sling-strength":
      return `A made-up sling that tests to ${atLeast("force")}.`;
    case "section-depth":
      return `An arm ${long()} deep at the pivot, as wide as now and deeper in proportion to the tip.`;
    case "section-diameter":
      return `An arm ${long()} thick at the pivot, and thicker in proportion to the tip.`;
    case "square-side":
      return `A square of the declared material, ${long()} a side, at the hardest bent place.`;
    case "bending-strength":
      return `The present section in a material that bears ${atLeast("stress")}, factor ${factor} included.`;
    case "holds":
      return `One that fails no sooner than at ${atLeast("force")}.`;
    case "stop-force":
      return `Over its declared way, a spring stop that holds ${atLeast("force")}.`;
    case "stop-stroke-spring":
      return `At its declared force, a way of ${long()} where it works as a spring.`;
    case "stop-stroke-even":
      return `At its declared force, a way of ${long()} where it crushes evenly.`;
    case "chamber-pressure":
      return `No more than ${atMost("gauge")} in the chamber.`;
    case "frame-mass":
      return `${atLeast("mass")} more on the middle of the frame.`;
    case "anchors":
      return `Or anchors that hold the lifting edge down with ${atLeast("force")} at the worst instant, before any factor: Before the day, Anchoring, asks for as much or more.`;
    case "counterweight":
      return `Or a counterweight of ${atMost("mass")}.${thrown}`;
    case "springs":
      return `Or ${Math.floor(100 * value)} % of the springs' torque.${thrown}`;
  }
}

const IMPOSSIBLE: Partial<Record<HelpCode, string>> = {
  counterweight: "No lighter counterweight that still throws.",
  springs: "No weaker springs that still throw.",
  "stop-stroke-spring": "No way is long enough at its declared force: weight pushes on harder than that.",
  "stop-stroke-even": "Nor one that crushes evenly.",
  "rope-rating":
    "No rope is enough: a stronger one is stiffer and jerks harder. One that stretches more jerks less.",
  "sling-strength":
    "No sling as stiff as was taken is enough: a stronger one is stiffer yet, and jerks harder.",
};

/** For which of its lives it would be enough. */
export function scopeText({ scope, part }: Help, rows: readonly PartLoad[]): string {
  if (part === "frame") return "So that the frame stays down";
  const others = rows.some(({ life }) => life !== "throw" && life !== "after");
  if (scope === "all") return part === "sling" ? "For a hang-up too" : "For every line above";
  return others ? "For the throw as meant, and what follows it" : "For the throw";
}
