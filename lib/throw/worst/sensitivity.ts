/**
 * Late whirling is steep, and a graze of the ground ends one neighbour's search and not another's: here the
 * parameters are found of which half a percent moves `worst` by more than 3 %. The box is at least a percent wide
 * there, unless the tolerance is an explicit 0.
 */
import type { HazardRequest } from "../contracts/request";
import type { Frame } from "../setup";
import { type Quick, QuickJudge } from "./quick";

const PROBE = 0.005;
const STEEP = 0.03;
/** Distances below this do not make a share, m. */
const LEAST = 0.5;

const PARAMETERS = ["armMass", "counterweightMass", "carriageMass", "slingLength", "mass"] as const;

/** Shares by which half a percent moves the worst throws at the declared dimensions, where that is steep. */
export function steepParameters(
  request: HazardRequest,
  frames: readonly Frame[],
): { parameter: string; change: number }[] {
  const steep: { parameter: string; change: number }[] = [];
  for (const frame of frames) {
    const judge = new QuickJudge(true);
    const declared = judge.judgeRequest(request, frame);
    for (const parameter of PARAMETERS) {
      const near = [-PROBE, PROBE].map((share) => vary(request, parameter, share));
      const changes = near.map((varied) =>
        varied ? changeOf(declared, judge.judgeRequest(varied, frame)) : 0,
      );
      const change = Math.max(...changes);
      const known = steep.find((each) => each.parameter === parameter);
      if (known) known.change = Math.max(known.change, change);
      else if (change > STEEP) steep.push({ parameter, change });
    }
  }
  return steep;
}

/** The larger change of the two worst distances as a share of the declared ones. */
function changeOf(declared: Quick | null, other: Quick | null): number {
  if (!declared || !other) return 0;
  return Math.max(
    ...(["forward", "backward"] as const).map(
      (aim) => Math.abs(other[aim] - declared[aim]) / Math.max(declared[aim], LEAST),
    ),
  );
}

/** The machine with one parameter changed by a share; null when it has none. */
function vary(
  request: HazardRequest,
  parameter: (typeof PARAMETERS)[number],
  share: number,
): HazardRequest | null {
  const { machine, projectile } = request;
  const holder: Record<string, unknown> = parameter === "mass" ? projectile : machine;
  const declared = holder[parameter];
  if (typeof declared !== "number" || declared === 0) return null;
  const value = declared * (1 + share);
  return parameter === "mass"
    ? { ...request, projectile: { ...projectile, mass: value } }
    : { ...request, machine: { ...machine, [parameter]: value } as HazardRequest["machine"] };
}
