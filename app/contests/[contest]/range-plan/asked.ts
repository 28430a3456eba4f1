/** What the reader asked of the range plan, from the page's address; what cannot be read takes its default. */
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { largestScale, PAPER_NAMES, type Paper, readScale, sheetLayout, type Turn } from "./plan-scale";
import { groundOf, sizeOf } from "./plan-view";

export type Query = Record<string, string | string[] | undefined>;

export interface Asked {
  paper: Paper;
  turn: Turn;
  /** As it was typed. */
  scaleText: string;
  /** 1:n; null for the largest that fits. */
  scale: number | null;
  /** A machine's id, all, together or none. */
  zones: string;
  machines: readonly PlanMachine[];
}

const SPECIAL = ["together", "none"] as const;

export function askedOf(query: Query, plan: RangePlan, system: UnitSystem): Asked {
  const one = (key: string) => [query[key]].flat()[0] ?? "";
  const paper = PAPER_NAMES.find((name) => name === one("paper")) ?? (system === "us" ? "letter" : "a4");
  const chosen = plan.machines.filter(({ id }) => id === one("zones"));
  const special = SPECIAL.find((word) => word === one("zones"));
  const machines = special === "none" ? [] : chosen.length > 0 ? chosen : plan.machines;
  const scaleText = one("scale").trim();
  const turn = one("turn");
  return {
    paper,
    turn: turn === "portrait" || turn === "landscape" ? turn : betterTurn(plan, machines, paper, system),
    scaleText,
    scale: readScale(scaleText),
    zones: special ?? chosen[0]?.id ?? "all",
    machines,
  };
}

/** The one on which the site is drawn larger. */
function betterTurn(
  plan: RangePlan,
  machines: readonly PlanMachine[],
  paper: Paper,
  system: UnitSystem,
): Turn {
  const ground = groundOf(plan, machines);
  if (!ground) return "portrait";
  const scaleOf = (turn: Turn) => largestScale(sizeOf(ground), sheetLayout(paper, turn).map, system);
  return scaleOf("landscape") < scaleOf("portrait") ? "landscape" : "portrait";
}
