/** The sections of the page, in the order of the days before, and for which machines they are. */
import type { ComponentType } from "react";
import type { Machine } from "@/lib/throw";
import { Checklist } from "./checklist/checklist";
import { Clearances } from "./clearances/clearances";
import { Fill } from "./fill/fill";
import { Ground } from "./ground/ground";
import { Anchoring } from "./raising/anchoring";
import { Raising } from "./raising/raising";
import type { SectionProps } from "./section-props";
import { Spares } from "./spares/spares";
import { Height } from "./transport/height";
import { Weight } from "./transport/weight";

interface Section {
  id: string;
  label: string;
  applies: (machine: Machine) => boolean;
  Content: ComponentType<SectionProps>;
}

const always = () => true;

export const SECTIONS: readonly Section[] = [
  { id: "checklist", label: "Checklist", applies: always, Content: Checklist },
  {
    id: "filling",
    label: "Counterweight fill",
    applies: (machine) => "counterweightMass" in machine,
    Content: Fill,
  },
  {
    id: "clearances",
    label: "Running clearances",
    applies: ({ kind }) => kind !== "air-cannon",
    Content: Clearances,
  },
  { id: "spares", label: "Spare parts", applies: always, Content: Spares },
  { id: "height", label: "Height on the road", applies: always, Content: Height },
  { id: "weight", label: "Weight on the trailer", applies: always, Content: Weight },
  { id: "raising", label: "Raising", applies: always, Content: Raising },
  { id: "anchoring", label: "Anchoring", applies: always, Content: Anchoring },
  { id: "ground", label: "Level ground", applies: always, Content: Ground },
];
