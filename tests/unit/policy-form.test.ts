/** The contest's policy form sends the whole policy: a number without a field would be lost with every change. */
import { expect, it } from "vitest";
import { POLICY_ASKED, policyNumbers } from "@/app/contests/[contest]/organise/conditions/asked";
import { policySchema } from "@/lib/throw/contracts";

/** Dotted paths of all numbers in an object, with their values. */
function numbersIn(value: object, before = ""): [path: string, value: number][] {
  return Object.entries(value).flatMap(([name, part]) => {
    if (typeof part === "number") return [[`${before}${name}`, part] as [string, number]];
    return part && typeof part === "object" ? numbersIn(part, `${before}${name}.`) : [];
  });
}

it("asks for every number of the policy, and shows what is set", () => {
  const policy = policySchema.parse({
    margin: 1.3,
    angles: { aim: 4, lean: 2, tornSling: 15, debris: 60 },
    minimum: { forward: 40, backward: 35, side: 25 },
    projectiles: {
      mass: { min: 4, max: 6 },
      diameter: { min: 0.2, max: 0.3 },
      pieceShare: 0.4,
      substituteDensity: 2700,
    },
  });
  const all = Object.fromEntries(numbersIn(policy));
  expect(policyNumbers(policy)).toEqual(all);
  expect(POLICY_ASKED.map(({ path }) => path).sort()).toEqual(Object.keys(all).sort());
});
