/** What the throw engine is asked. SI units; angles in degrees. */
import { z } from "zod";
import { beyondLimits, refusals } from "../check";
import { machineKind, machineSchema } from "../machines/registry";
import type { Throwable } from "../setup";
import { airSchema, terrainSchema } from "./air";
import { barrierSchema } from "./barrier";
import { measuredThrowSchema } from "./calibration";
import { finite } from "./numbers";
import { checkedPolicySchema } from "./policy";
import { projectileSchema } from "./projectile";
import { strengthsSchema } from "./strengths";

const declarationFields = {
  machine: machineSchema,
  projectile: projectileSchema,
  /** ± of any numeric parameter by its name, `mass` and `diameter` of the projectile included; 0 is exact. */
  tolerances: z.record(z.string(), finite.min(0)).optional(),
  /** What the parts can bear; loads are shown without a reserve where nothing is declared. */
  strengths: strengthsSchema.optional(),
};

type Checked = Throwable & { tolerances?: Record<string, number> | undefined };
type Thrown = readonly { settings?: Record<string, number> | undefined }[] | undefined;

/** Refuses what is impossible though every number is in range: numbers that are not could not even be reckoned with. */
function checkDeclaration(request: Checked, context: z.RefinementCtx): void {
  if (context.issues.length > 0) return;
  for (const refusal of [...refusals(request), ...beyondLimits(request)]) {
    context.addIssue({ code: "custom", ...refusal });
  }
  const kind = machineKind(request.machine.kind);
  const known = ["mass", "diameter", ...kind.parameters.map((parameter) => parameter.name)];
  for (const name of Object.keys(request.tolerances ?? {})) {
    if (known.includes(name)) continue;
    const message = `A ${kind.kind} machine has no parameter "${name}". It has: ${known.join(", ")}.`;
    context.addIssue({ code: "custom", path: ["tolerances", name], message });
  }
}

/**
 * Measured throws may differ in what decides the throw as meant alone: a machine with another counterweight has other
 * worst throws, and is another revision.
 */
function checkThrows(
  { machine, projectile, throws = [] }: Checked & { throws?: Thrown },
  context: z.RefinementCtx,
) {
  if (context.issues.length > 0) return;
  const kind = machineKind(machine.kind);
  const known = kind.parameters.flatMap(({ name, onlyNominal, when }) =>
    onlyNominal && !when ? [name] : [],
  );
  throws.forEach(({ settings = {} }, index) => {
    const refuse = (name: string, message: string) =>
      context.addIssue({ code: "custom", path: ["throws", index, "settings", name], message });
    for (const [name, value] of Object.entries(settings)) {
      if (!known.includes(name)) {
        const can =
          known.length > 0 ? `Only ${known.join(", ")} may differ` : "No number of this kind may differ";
        refuse(
          name,
          `${can} between throws of one revision; a machine with another ${name} is another revision.`,
        );
        continue;
      }
      const changed = kind.schema.safeParse({ ...machine, [name]: value });
      const wrong = changed.success
        ? refusals({ machine: changed.data as Throwable["machine"], projectile } as Throwable)[0]?.message
        : changed.error.issues[0]?.message;
      if (wrong) refuse(name, wrong);
    }
  });
}

/** What a team declares of one machine revision. */
export const declarationSchema = z.strictObject(declarationFields).superRefine(checkDeclaration);

const requestSchema = z.strictObject({
  ...declarationFields,
  air: airSchema.optional(),
  /** Level ground at the machine's height without it. */
  terrain: terrainSchema.optional(),
  /** What the safety officer signs for; nothing stops a throw without it. */
  barriers: z.array(barrierSchema).max(40).optional(),
  policy: checkedPolicySchema.optional(),
  /** Measured throws of this very machine, in order: what they say of the model. */
  throws: z.array(measuredThrowSchema).max(500).optional(),
  /** Site of the throw, for gravity; standard gravity without it. */
  site: z.strictObject({ latitude: finite.min(-90).max(90), height: finite.min(-500).max(6000) }).optional(),
  /** How long the swing is followed from the trigger, s; 10·√(longArm/g) by default. */
  horizon: finite.min(0.05).max(120).optional(),
});

export const hazardRequestSchema = requestSchema.superRefine((request, context) => {
  checkDeclaration(request, context);
  checkThrows(request, context);
});

export type HazardRequestInput = z.input<typeof hazardRequestSchema>;
export type HazardRequest = z.output<typeof hazardRequestSchema>;
export type Declaration = z.output<typeof declarationSchema>;
