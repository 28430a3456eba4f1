/** Every kind of machine the engine knows. A new kind adds its file and its line here. */
import { z } from "zod";
import { airCannon } from "./air-cannon";
import { fixedCounterweight } from "./fixed-counterweight";
import { floatingArm } from "./floating-arm";
import { hingedCounterweight } from "./hinged-counterweight";
import type { MachineKind } from "./kind";
import { measured } from "./measured";
import { spinningArm } from "./spinning-arm";
import { tension } from "./tension";
import { torsion } from "./torsion";

export const MACHINE_KINDS = [
  hingedCounterweight,
  fixedCounterweight,
  floatingArm,
  torsion,
  tension,
  spinningArm,
  airCannon,
  measured,
] as const;

type SchemasOf<Kinds extends readonly { schema: z.ZodObject }[]> = {
  -readonly [Index in keyof Kinds]: Kinds[Index]["schema"];
};

export const machineSchema = z.discriminatedUnion(
  "kind",
  MACHINE_KINDS.map(({ schema }) => schema) as unknown as SchemasOf<typeof MACHINE_KINDS>,
);

export type Machine = z.output<typeof machineSchema>;

/** The parameters, equations and words of one kind. */
export function machineKind(kind: Machine["kind"]): MachineKind<z.ZodObject, Machine> {
  const found = MACHINE_KINDS.find((candidate) => candidate.kind === kind);
  if (!found) throw new Error(`Unknown machine kind ${kind}`);
  return found as unknown as MachineKind<z.ZodObject, Machine>;
}
