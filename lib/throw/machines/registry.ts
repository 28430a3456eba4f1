/** Every kind of machine the engine knows. A new kind adds its file and its lines here. */
import { z } from "zod";
import { fixedCounterweight, fixedCounterweightSchema } from "./fixed-counterweight";
import { floatingArm, floatingArmSchema } from "./floating-arm";
import { hingedCounterweight, hingedCounterweightSchema } from "./hinged-counterweight";
import type { MachineKind } from "./kind";
import { measured, measuredSchema } from "./measured";

export const machineSchema = z.discriminatedUnion("kind", [
  hingedCounterweightSchema,
  fixedCounterweightSchema,
  floatingArmSchema,
  measuredSchema,
]);

export type Machine = z.output<typeof machineSchema>;

export const MACHINE_KINDS = [hingedCounterweight, fixedCounterweight, floatingArm, measured] as const;

/** The parameters and words of one kind. */
export function machineKind(kind: Machine["kind"]): MachineKind<string, Machine> {
  const found = MACHINE_KINDS.find((candidate) => candidate.kind === kind);
  if (!found) throw new Error(`Unknown machine kind ${kind}`);
  return found as unknown as MachineKind<string, Machine>;
}
