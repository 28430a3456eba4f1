/**
 * Any request that the contracts accept, as a fast-check arbitrary drawn from the JSON schema of every kind: around a
 * machine that works, far from it, and at the ends of every range.
 */
import fc from "fast-check";
import { z } from "zod";
import { type HazardRequest, type HazardRequestInput, hazardRequestSchema, MACHINE_KINDS } from "@/lib/throw";

interface Schema {
  type?: string;
  const?: unknown;
  enum?: unknown[];
  anyOf?: Schema[];
  oneOf?: Schema[];
  properties?: Record<string, Schema>;
  required?: string[];
  items?: Schema;
  minItems?: number;
  maxItems?: number;
  minimum?: number;
  maximum?: number;
  exclusiveMinimum?: number;
}

/** Around a value that works: a little, a lot, wildly, or at the ends of its range. */
function numberLike(schema: Schema, around: unknown): fc.Arbitrary<number> {
  const low = schema.minimum ?? schema.exclusiveMinimum ?? -1e6;
  const high = schema.maximum ?? 1e6;
  const clamp = (value: number) => Math.min(high, Math.max(low, value));
  const value = typeof around === "number" ? around : Math.min(high, Math.max(low, 1));
  const times = (spread: number) =>
    fc.double({ min: -spread, max: spread, noNaN: true }).map((power) => clamp(value * Math.exp(power)));
  const step = Math.max(1, Math.abs(value));
  return fc.oneof(
    { weight: 8, arbitrary: times(0.2) },
    { weight: 3, arbitrary: times(1.5) },
    { weight: 1, arbitrary: times(8) },
    { weight: 2, arbitrary: fc.double({ min: -2, max: 2, noNaN: true }).map((n) => clamp(value + n * step)) },
    { weight: 1, arbitrary: fc.double({ min: low, max: high, noNaN: true }) },
    { weight: 1, arbitrary: fc.constantFrom(low, high, clamp(0), clamp(1e-9), clamp(5e-324), clamp(-0)) },
  );
}

function like(schema: Schema, around: unknown): fc.Arbitrary<unknown> {
  if ("const" in schema) return fc.constant(schema.const);
  if (schema.enum) return fc.constantFrom(...schema.enum);
  const options = schema.anyOf ?? schema.oneOf;
  if (options) return fc.oneof(...options.map((option) => like(option, around)));
  if (schema.type === "number" || schema.type === "integer") return numberLike(schema, around);
  if (schema.type === "boolean") return fc.boolean();
  if (schema.type === "array") return arrayLike(schema, around);
  if (schema.type === "object") return objectLike(schema, around);
  return fc.string({ maxLength: 20 });
}

/** The items that work, each changed, some dropped. */
function arrayLike(schema: Schema, around: unknown): fc.Arbitrary<unknown[]> {
  const items = Array.isArray(around) ? around : [];
  const each = items.map((item) => like(schema.items ?? {}, item));
  return fc.oneof(
    fc.tuple(...each),
    fc.array(like(schema.items ?? {}, items.at(-1)), {
      minLength: schema.minItems ?? 0,
      maxLength: Math.min(8, schema.maxItems ?? 8),
    }),
  );
}

function objectLike(schema: Schema, around: unknown): fc.Arbitrary<Record<string, unknown>> {
  const known = (around ?? {}) as Record<string, unknown>;
  const fields: Record<string, fc.Arbitrary<unknown>> = {};
  for (const [name, property] of Object.entries(schema.properties ?? {})) {
    const wanted = like(property, known[name]);
    const needed = schema.required?.includes(name);
    fields[name] = needed ? wanted : fc.option(wanted, { nil: undefined, freq: name in known ? 6 : 1 });
  }
  return fc.record(fields).map((made) => {
    const kept = Object.entries(made).filter(([, value]) => value !== undefined);
    return Object.fromEntries(kept);
  });
}

const schemaOf = (of: z.ZodType) =>
  z.toJSONSchema(of, { io: "input", unrepresentable: "any", reused: "inline" }) as Schema;

const whole = schemaOf(hazardRequestSchema);
const {
  machine: _machine,
  projectile: _projectile,
  tolerances: _tolerances,
  ...rest
} = whole.properties ?? {};
const surroundings = objectLike({ type: "object", properties: rest, required: [] }, {});
const gentle = fc.record({
  air: fc.constantFrom({}, { wind: { speed: 6, gust: 14, direction: 40 } }, { pressure: 0 }),
  terrain: fc.constantFrom(undefined, { below: 12, slope: 20 }, { slope: -25, crossSlope: 10 }),
});

const candidates = fc.oneof(
  ...MACHINE_KINDS.map((kind) =>
    fc.record({
      machine: objectLike(schemaOf(kind.schema), kind.example),
      projectile: objectLike(whole.properties?.projectile ?? {}, kind.exampleProjectile),
      around: fc.oneof({ weight: 3, arbitrary: gentle }, { weight: 1, arbitrary: surroundings }),
    }),
  ),
);

export const anyRequest = candidates
  .map(({ machine, projectile, around }) => {
    const asked = { machine, projectile, ...around } as unknown as HazardRequestInput;
    return { asked, parsed: hazardRequestSchema.safeParse(asked) };
  })
  .filter(({ parsed }) => parsed.success)
  .map(({ asked, parsed }) => ({ asked, request: parsed.data as HazardRequest }));
