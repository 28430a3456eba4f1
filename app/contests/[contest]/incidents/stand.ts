/** From where a machine's pieces are measured. */
import type { ContestOverview, IncidentInfo } from "@/lib/api/contracts";
import type { Range, Stand } from "../judge/entry";

export type Pegs = Pick<Range, "pegs" | "declination">;

export const pegsOf = ({ controlPoints, declination }: ContestOverview): Pegs => ({
  pegs: controlPoints.filter(({ retired }) => !retired),
  declination,
});

/** As it stands now; null where it stands nowhere. */
export function standNow(
  { firingPoints }: Pick<ContestOverview, "firingPoints">,
  machine: {
    firingPointId: string | null;
    bearing: number | null;
  },
): Stand | null {
  const firingPoint = firingPoints.find(({ id }) => id === machine.firingPointId);
  return firingPoint && machine.bearing !== null
    ? { firingPoint, firingPointNumber: firingPoint.number, bearing: machine.bearing, lastMark: null }
    : null;
}

/** As it stood then. */
export function standThen({ stood }: Pick<IncidentInfo, "stood">): Stand | null {
  if (!stood) return null;
  const { latitude, longitude, height, accuracy, bearing, firingPointNumber } = stood;
  const firingPoint = { latitude, longitude, height, accuracy };
  return { firingPoint, firingPointNumber, bearing, lastMark: null };
}
