/** Where a placed machine's ordinary throws land. Computed when somebody asks, after all official sheets; kept nowhere. */
import type { LandingContours } from "../api/contracts";
import type { Database } from "../db";
import { type Declaration, declarationSchema } from "../throw";
import { CONTOUR_LABEL, chanceContours, landingSpread } from "../zones";
import { conflict, Refusal } from "./errors";
import { contestBySlug, machineIn, policyOf } from "./find";
import { hazardQueue } from "./hazard-queue";
import { type Asker, mustBeAllowed } from "./roles";
import { circumstancesOf, requestOf } from "./sheets";

const DRAWS = 2000;
const SHARES = [0.5, 0.9, 0.99];
/** Of the wind: it may come from anywhere, degrees either way. */
const ANY_WIND = 180;

/** Officials, and the team whose machine it is. Throws 409 when it stands nowhere, 503 when too many ask. */
export async function machineContours(
  db: Database,
  actor: Asker,
  slug: string,
  machineId: string,
): Promise<LandingContours> {
  const contest = await contestBySlug(db, slug);
  const machine = await machineIn(db, contest.id, machineId);
  mustBeAllowed(actor, "see a machine's declaration and sheet", contest.id, machine.entrantId);
  const { firingPoint, bearing } = machine;
  const revision = machine.revisions[0];
  if (!firingPoint || bearing === null || !revision)
    throw conflict(
      "not-placed",
      "Contours need a declared machine with a firing point and a bearing: place it first.",
    );
  const declaration: Declaration = declarationSchema.parse(JSON.parse(revision.declared));
  const { air } = await circumstancesOf(db, contest);
  const request = requestOf(contest, declaration, { air });
  const { aim } = policyOf(contest).angles;
  const { points, outcomes } = await hazardQueue()
    .disperse(request, { seed: 1, aim, windTurn: ANY_WIND }, DRAWS, "open")
    .catch((error: Error) => {
      if (error.name !== "EngineRefusal") throw error;
      throw new Refusal(422, "not-computable", error.message);
    });
  const landed = [...outcomes.keys()]
    .filter((draw) => outcomes[draw] === 0)
    .map((draw): [number, number] => [points[2 * draw] as number, points[2 * draw + 1] as number]);
  const contours =
    landed.length > 0 ? chanceContours(firingPoint, bearing, landingSpread(landed), SHARES) : [];
  return {
    type: "FeatureCollection",
    features: contours.map(({ share, geometry }) => ({
      type: "Feature",
      geometry: geometry as LandingContours["features"][number]["geometry"],
      properties: { share, label: CONTOUR_LABEL },
    })),
    label: CONTOUR_LABEL,
    draws: DRAWS,
    landed: landed.length,
    assumptions: [
      "Each throw lets go as meant; failures and hang-ups are left out.",
      `Tolerances and the wind up to its gust are drawn evenly, the wind from any side, the aim within ±${aim}°.`,
      "On level ground. The landings are taken to be normally distributed.",
    ],
  };
}
