/** Words for inspections and firing permits. */
import type { InspectionInfo, PermitInfo } from "@/lib/api/contracts";
import type { Finding } from "@/lib/inspection";
import { formatQuantity, type UnitSystem } from "@/lib/units";

export const INSPECTION_WORDS: Record<InspectionInfo["outcome"], string> = {
  meets: "Meets it",
  "meets-with-limits": "Meets it with limits",
  refused: "Refused",
};

export const FINDING_WORDS: Record<Finding, string> = {
  meets: "Meets it",
  limit: "Meets it with a limit",
  fails: "Fails",
  "not-applicable": "Does not apply",
};

export const PERMIT_WORDS: Record<PermitInfo["state"], string> = {
  stands: "stands",
  waits: "waits",
  fallen: "has fallen",
};

/** The limits of a permit, a label and a text each. */
export function limitRows({ limits }: Pick<PermitInfo, "limits">, system: UnitSystem) {
  const { wind, bearing, projectileMass, counterweightMass, pressure } = limits;
  const speed = (value: number) => formatQuantity(value, "speed", system, { digits: 1 });
  const mass = (value: number) => formatQuantity(value, "mass", system, { digits: value < 100 ? 2 : 1 });
  const rows = [
    {
      label: "Wind",
      text: `gusts to ${speed(wind.gust)}, mean to ${speed(wind.speed)}, read at ${formatQuantity(wind.height, "distance", system, { digits: 0 })} above the ground`,
    },
    {
      label: "Aim",
      text: `within ${formatQuantity(bearing, "angle", system, { digits: 1 })} of its bearing`,
    },
    { label: "Projectile", text: `${mass(projectileMass.least)} to ${mass(projectileMass.most)}` },
  ];
  if (counterweightMass !== null)
    rows.push({ label: "Counterweight", text: `${mass(counterweightMass)} at most` });
  if (pressure !== null)
    rows.push({ label: "Pressure", text: `${formatQuantity(pressure, "gauge", system)} at most` });
  return rows;
}
