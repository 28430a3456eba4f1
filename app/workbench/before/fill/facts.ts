/** What comes out of a filling, in words. */
import { besideLimit, exceeds } from "@/app/_ui/beside-limit";
import { gapText, massText, shareText, sizeText } from "@/app/_ui/inspection/texts";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Charge, type Counterweight, chargeFor, chargeFull, gapIn } from "@/lib/inspection";
import { formatQuantity } from "@/lib/units";
import type { Fact } from "../numbers/facts";
import type { Numbers } from "../numbers/use-numbers";
import type { Choice, Name } from "./asks";

/** Null until drum and filling are known. */
export function weightFrom(
  { value, form }: Numbers<Name, Choice>,
  bulk: number | undefined,
): Counterweight | null {
  const [diameter, length] = [value("diameter"), value("length")];
  if (diameter === undefined || length === undefined || bulk === undefined) return null;
  return {
    count: Number(form.choices.count),
    drum: { diameter, length, stands: form.choices.stands === "lying" ? "lying" : "upright" },
    drumMass: value("drumMass") ?? 0,
    cradleMass: value("cradleMass") ?? 0,
    bulk,
  };
}

export interface Offered {
  words: string;
  mass: number;
}

/** What to say of a filling, and the masses that a revision can take from it. */
export function chargeFacts(
  weight: Counterweight,
  wanted: number,
  system: UnitSystem,
): { facts: Fact[]; masses: Offered[] } {
  const full = chargeFull(weight);
  const found = chargeFor(weight, wanted);
  const facts: Fact[] = [
    { label: "Full to the lid", text: `${massText(full.mass, system)}, ${contents(full, system)}` },
  ];
  if (found.ok) {
    const { charge } = found;
    facts.push(
      {
        label: `For ${massText(wanted, system)}`,
        text: `fill to ${sizeText(charge.depth, system)} above the inside bottom, ${shareText(charge.share)} of its height, ${contents(charge, system)}`,
      },
      {
        label: "Centre of mass, filled so",
        text: `${sizeText(charge.centre, system)} above the inside bottom at rest: measure from the hinge to it for the hanger's length`,
      },
    );
  } else {
    const { off } = besideLimit(found.by, 0, (mass, more) => massText(mass, system, more));
    const text =
      found.why === "too-heavy-empty"
        ? `not with these: drums and cradle alone are ${off} heavier`
        : `not with these: full they are ${off} too light; take a denser filling or another drum`;
    facts.push({ label: `For ${massText(wanted, system)}`, text, short: true });
  }
  return {
    facts,
    masses: [
      ...(found.ok ? [{ words: "filled so", mass: found.charge.mass }] : []),
      { words: "full to the lid", mass: full.mass },
    ],
  };
}

const contents = ({ fill, volume }: Charge, system: UnitSystem) =>
  `${massText(fill, system)} of filling in ${formatQuantity(volume, "volume", system, { digits: 0 })}`;

/** Each way by itself: what is left all round, or by how much it does not go in. */
export function cradleFacts({ value, form }: Numbers<Name, Choice>, system: UnitSystem): Fact[] {
  const count = Number(form.choices.count);
  const asked = value("gap") ?? 0;
  return (
    [
      ["Across the cradle", value("cradleWidth"), value("outerDiameter"), 1],
      ["Along the cradle", value("cradleLength"), value("outerLength"), count],
    ] as const
  ).flatMap(([label, inside, outside, times]): Fact[] => {
    if (inside === undefined || outside === undefined) return [];
    const gap = gapIn(inside, times * outside);
    const write = (metres: number, more: number) => gapText(metres, system, more);
    if (exceeds(times * outside, inside))
      return [
        { label, text: `does not go in: ${besideLimit(2 * gap, 0, write).off} too large`, short: true },
      ];
    const short = asked - gap > 1e-9;
    const told = besideLimit(gap, asked, write);
    return [
      {
        label,
        text: `goes in with ${short ? told.value : gapText(gap, system)} to either side${short ? `, ${told.limit} wanted` : ""}`,
        short,
      },
    ];
  });
}
