/** A machine as it leans on the ground that was measured, and what its numbers assume. Pure. */
import type { Lean } from "@/lib/inspection";
import { type HazardRequest, hazardRequestSchema, machineKind, type Preview } from "@/lib/throw";

type Leaned = "lean" | "launchAngle" | "elevation" | null;

/** How a lean enters a kind's numbers: as a lean, through the angle at which it throws, or not at all. */
export function leansBy({ kind }: HazardRequest["machine"]): Leaned {
  const names = machineKind(kind).parameters.map(({ name }) => name);
  if (names.includes("leanAlong")) return "lean";
  return (["launchAngle", "elevation"] as const).find((name) => names.includes(name)) ?? null;
}

/** The same machine leaning so; null where its kind knows no lean, or cannot lean as far. */
export function leaning(request: HazardRequest, { along, across }: Lean): HazardRequest | null {
  const by = leansBy(request.machine);
  if (by === null) return null;
  const machine = request.machine as unknown as Record<string, number>;
  const leaned =
    by === "lean"
      ? { ...machine, leanAlong: along, leanAcross: across }
      : // Downrange lower throws flatter.
        { ...machine, [by]: (machine[by] ?? 0) - along };
  const read = hazardRequestSchema.safeParse({ ...request, machine: leaned });
  return read.success ? read.data : null;
}

export interface Assumed extends Lean {
  /** ± that the hazard sheet takes, degrees. */
  within: Lean;
}

/** What the declared numbers hold of a lean; null for kinds without one. */
export function assumedLean({ machine, tolerances }: HazardRequest): Assumed | null {
  if (!("leanAlong" in machine)) return null;
  const usual = (name: string) =>
    tolerances?.[name] ??
    machineKind(machine.kind).parameters.find((each) => each.name === name)?.tolerance?.plus ??
    0;
  return {
    along: machine.leanAlong,
    across: machine.leanAcross,
    within: { along: usual("leanAlong"), across: usual("leanAcross") },
  };
}

/** Where the projectile of the throw as meant leaves, m downrange; null when nothing is thrown. */
export const releaseXOf = ({ flights }: Preview): number | null =>
  flights.find(({ of }) => of === "nominal")?.path[0] ?? null;
