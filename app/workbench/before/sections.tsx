/** The sections of the page, in the order of the days before, and for which machines they are. */
import type { ComponentType } from "react";
import type { Machine } from "@/lib/throw";
import { Checklist } from "./checklist/checklist";
import { Clearances } from "./clearances/clearances";
import { Fill } from "./fill/fill";
import { Ground } from "./ground/ground";
import { Raising } from "./raising/raising";
import type { SectionProps } from "./section-props";
import { Spares } from "./spares/spares";
import { Transport } from "./transport/transport";

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
  { id: "transport", label: "Transport", applies: always, Content: Transport },
  { id: "raising", label: "Raising, anchoring", applies: always, Content: Raising },
  { id: "ground", label: "Level ground", applies: always, Content: Ground },
];
