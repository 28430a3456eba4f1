/**
 * Late whirling is steep, and a graze of the ground ends one neighbour's search and not another's: where half a
 * percent of any mass or of the sling moves `worst` by more than 3 %, a percent each way is taken instead of the
 * declared value, unless its tolerance is an explicit 0.
 */
import { type Case, workOut } from "../case";
import { refusals } from "../check";
import type { HazardRequest } from "../contracts/request";
import { isSwung } from "../setup";

const PROBE = 0.005;
const WIDEN = 0.01;
const STEEP = 0.03;
/** Distances below this do not make a share, m. */
const LEAST = 0.5;

export interface CornerCase {
  worked: Case;
  corner: Record<string, number>;
}

const PARAMETERS = ["armMass", "counterweightMass", "carriageMass", "slingLength", "mass"] as const;
type Parameter = (typeof PARAMETERS)[number];

/** The parameters on which `worst` hangs, and the varied machines that must be counted for them. */
export function searchSensitive(
  request: HazardRequest,
  declared: Case,
  onProgress: (done: number) => void,
): { sensitive: { parameter: string; change: number }[]; cases: CornerCase[] } {
  const sensitive: { parameter: string; change: number }[] = [];
  const cases: CornerCase[] = [];
  if (!isSwung(request.machine)) return { sensitive, cases };
  PARAMETERS.forEach((parameter, done) => {
    const near = [-PROBE, PROBE].flatMap((share) => vary(request, parameter, share));
    const change = Math.max(0, ...near.map(({ worked }) => changeOf(declared, worked)));
    if (change > STEEP) {
      sensitive.push({ parameter, change });
      if (request.tolerances?.[parameter] !== 0) {
        cases.push(...near, ...[-WIDEN, WIDEN].flatMap((share) => vary(request, parameter, share)));
      }
    }
    onProgress((done + 1) / PARAMETERS.length);
  });
  return { sensitive, cases };
}

/** The larger change of the two worst distances as a share of the declared ones. */
function changeOf(declared: Case, other: Case): number {
  const pairs = [
    [declared.scan.forward, other.scan.forward],
    [declared.scan.backward, other.scan.backward],
  ] as const;
  return Math.max(
    ...pairs.map(([a, b]) => {
      const was = a?.distance ?? 0;
      return Math.abs((b?.distance ?? 0) - was) / Math.max(was, LEAST);
    }),
  );
}

/** The machine with one parameter changed by a share; nothing when it has none or could not be. */
function vary(request: HazardRequest, parameter: Parameter, share: number): CornerCase[] {
  const { machine, projectile } = request;
  const holder: Record<string, unknown> = parameter === "mass" ? projectile : machine;
  const declared = holder[parameter];
  if (typeof declared !== "number" || declared === 0) return [];
  const value = declared * (1 + share);
  const changed: HazardRequest =
    parameter === "mass"
      ? { ...request, projectile: { ...projectile, mass: value } }
      : { ...request, machine: { ...machine, [parameter]: value } as HazardRequest["machine"] };
  if (refusals(changed).length > 0) return [];
  return [{ worked: workOut(changed), corner: { [parameter]: value } }];
}
