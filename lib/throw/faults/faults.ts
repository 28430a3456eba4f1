/** What may break on one exact machine, and where its pieces go. */
import type { Case } from "../case";
import type { Fault } from "../contracts/faults";
import type { Loads, Sweep } from "../contracts/loads";
import { defaultPolicy } from "../contracts/policy";
import type { Lives } from "../loads/lives";
import { loads, type StrengthRequest, sweep, swingLives } from "../loads/loads";
import { projectileBursts } from "./burst";
import { PieceFlights } from "./flights";
import { formulaFaults } from "./formula-faults";
import { SwingFaults } from "./swing-faults";

/**
 * Every failure that makes sense for the machine. Faults count whatever the policy says of hang-ups; only the burst
 * of a projectile that is let go as it may be follows it.
 * @param lives and `swept`, when the loads have made them already
 */
export function faults(
  request: StrengthRequest,
  worked: Pick<Case, "trace" | "releases" | "airs">,
  lives: Lives | null = swingLives(request, worked),
  swept: Sweep | null = sweep(request, worked, lives),
): Fault[] {
  const policy = request.policy ?? defaultPolicy;
  const flights = new PieceFlights(worked.airs, policy);
  const out =
    lives && swept
      ? new SwingFaults(lives, worked.releases.nominal, request.strengths, swept, flights).list()
      : formulaFaults(request, flights);
  const burst = projectileBursts(request.projectile, worked, policy, flights);
  return burst ? [...out, burst] : out;
}

/** Loads, sweep and failures of one exact machine, with what they share made once. */
export function harm(
  request: StrengthRequest,
  worked: Pick<Case, "trace" | "releases" | "airs">,
): { loads: Loads; sweep: Sweep | null; faults: Fault[] } {
  const lives = swingLives(request, worked);
  const swept = sweep(request, worked, lives);
  return {
    loads: loads(request, worked, lives),
    sweep: swept,
    faults: faults(request, worked, lives, swept),
  };
}
