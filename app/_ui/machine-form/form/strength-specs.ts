/** What a team may declare that its machine's parts bear; each part by itself, and none need be. */
import { machineKind, WOOD_GRADES, WOOD_SPECIES } from "@/lib/throw";
import { at, type ChoiceSpec, type Condition, type FieldSpec, field, type Kind } from "./specs";

const NONE = { value: "none", label: "Not declared" };

const only = (choice: string, ...is: string[]): Condition[] => [{ choice: `strengths.${choice}`, is }];

const asked = (when: readonly Condition[], spec: FieldSpec): FieldSpec => ({ ...spec, when });

/** "select-structural" as people say it. */
const words = (value: string) =>
  (value.charAt(0).toUpperCase() + value.slice(1)).replace(/^No-/, "No. ").replaceAll("-", " ");

/** yes or no at one path of the request. */
const whether = (path: string, label: string, help: string, yes: string, no: string): ChoiceSpec => ({
  path,
  label,
  help,
  options: [
    { value: "yes", label: yes },
    { value: "no", label: no },
  ],
  writes: { yes: { [path]: true }, no: { [path]: false } },
  reads: (declaration) => (at(declaration, path) === false ? "no" : "yes"),
});

const rope = only("sling", "rope");

const slingChoices: readonly ChoiceSpec[] = [
  {
    path: "strengths.sling",
    label: "Sling",
    help: "By its rope's rating, or as you tested it with its knots.",
    options: [
      NONE,
      { value: "rope", label: "By the rope's rating" },
      { value: "tested", label: "Tested as made up" },
    ],
    writes: { none: {}, rope: {}, tested: {} },
    reads: (declaration) => {
      const sling = at(declaration, "strengths.sling");
      if (!sling) return "none";
      return at(sling, "ropeRating") === undefined ? "tested" : "rope";
    },
  },
  {
    ...whether("strengths.sling.knots", "Knots", "A knot halves a rope's strength.", "Knotted", "No knot"),
    when: rope,
  },
  {
    ...whether("strengths.sling.wet", "Wet", "Wet rope is weaker.", "May be wet", "Always dry"),
    when: rope,
  },
];

const slingFields: readonly FieldSpec[] = [
  asked(
    rope,
    field(
      "strengths.sling.ropeRating",
      "Rope's breaking strength",
      "force",
      "Of one rope, dry and without knots, as its maker quotes it.",
      false,
    ),
  ),
  asked(
    rope,
    field("strengths.sling.legs", "Ropes that share the pull", "ratio", "1 if left empty; 2 for two legs."),
  ),
  asked(
    only("sling", "tested"),
    field(
      "strengths.sling.breakingStrength",
      "Sling's breaking strength",
      "force",
      "As tested with its knots: nothing is taken off.",
      false,
    ),
  ),
  asked(
    only("sling", "rope", "tested"),
    field(
      "strengths.sling.stretch",
      "Stretch at breaking",
      "ratio",
      "Share of its length, for the jerk after a slack: 0.15 or 15 %. Left empty, 3.5 % as the stiffest usual rope: hard jerks.",
    ),
  ),
];

const SHAPES = ["rectangular", "round", "tube", "laminated"] as const;
const shapeWords: Record<(typeof SHAPES)[number], string> = {
  rectangular: "Rectangular",
  round: "Round",
  tube: "Tube",
  laminated: "Laminated boards",
};

const armChoices: readonly ChoiceSpec[] = [
  {
    path: "strengths.arm.material",
    label: "Arm's material",
    help: "Timber by species and grade, or a strength that you know.",
    options: [NONE, { value: "wood", label: "Timber" }, { value: "tested", label: "By its strength" }],
    writes: { none: {}, wood: {}, tested: {} },
    reads: (declaration) => {
      const material = at(declaration, "strengths.arm.material");
      if (!material) return "none";
      return at(material, "wood") === undefined ? "tested" : "wood";
    },
  },
  {
    path: "strengths.arm.material.wood",
    label: "Species",
    help: "The weakest that it could be.",
    options: WOOD_SPECIES.map((value) => ({ value, label: words(value) })),
    when: only("arm.material", "wood"),
  },
  {
    path: "strengths.arm.material.grade",
    label: "Grade",
    help: "Without a grade stamp the lowest that it could be.",
    // The cautious default of the contract first.
    options: ["no-2", ...WOOD_GRADES.filter((grade) => grade !== "no-2")].map((value) => ({
      value,
      label: words(value),
    })),
    when: only("arm.material", "wood"),
  },
  {
    path: "strengths.arm.section",
    label: "Arm's section at the pivot",
    help: "Without it loads are shown as moments, with no reserve.",
    options: [NONE, ...SHAPES.map((value) => ({ value, label: shapeWords[value] }))],
    writes: {
      none: {},
      ...Object.fromEntries(SHAPES.map((shape) => [shape, { "strengths.arm.sections.pivot.shape": shape }])),
    },
    reads: (declaration) =>
      (at(declaration, "strengths.arm.sections.pivot.shape") as string | undefined) ?? "none",
  },
  {
    path: "strengths.arm.taper",
    label: "Towards the tip",
    help: "Between pivot and tip every size changes evenly.",
    options: [
      { value: "no", label: "The same section" },
      { value: "yes", label: "It tapers" },
    ],
    writes: { no: {}, yes: {} },
    reads: (declaration) => (at(declaration, "strengths.arm.sections.tip") ? "yes" : "no"),
    when: only("arm.section", ...SHAPES),
  },
];

/** The sizes of a section at the pivot or at the tip. */
function sectionFields(place: "pivot" | "tip"): FieldSpec[] {
  const path = (name: string) => `strengths.arm.sections.${place}.${name}`;
  const where = place === "pivot" ? "" : " at the tip";
  const of = (shapes: string[], spec: FieldSpec) =>
    asked(
      place === "tip"
        ? [...only("arm.section", ...shapes), ...only("arm.taper", "yes")]
        : only("arm.section", ...shapes),
      spec,
    );
  return [
    of(
      ["rectangular", "laminated"],
      field(path("depth"), `Depth${where}`, "length", "In the plane of the swing.", false),
    ),
    of(
      ["rectangular", "laminated"],
      field(path("width"), `Width${where}`, "length", "Across the plane of the swing.", false),
    ),
    of(["round", "tube"], field(path("diameter"), `Outer diameter${where}`, "length", "", false)),
    of(["tube"], field(path("wall"), `Wall${where}`, "length", "Thickness of one side.", false)),
    of(["laminated"], field(path("layers"), `Boards${where}`, "ratio", "On top of each other.", false)),
    of(
      ["laminated"],
      field(
        path("glueFactor"),
        `Glue${where}`,
        "ratio",
        "1 when it makes one piece of the boards, 0 when they only lie on each other; 0.5 if left empty.",
      ),
    ),
    of(
      ["laminated"],
      field(path("clothLayers"), `Cloth layers${where}`, "ratio", "In resin; none if left empty."),
    ),
  ];
}

const armFields: readonly FieldSpec[] = [
  asked(
    only("arm.material", "wood"),
    field(
      "strengths.arm.material.moisture",
      "Moisture, per cent",
      "ratio",
      "Of the dry wood's mass, as a bare number: 12 indoors; 19 if left empty.",
    ),
  ),
  asked(
    only("arm.material", "tested"),
    field(
      "strengths.arm.material.modulusOfRupture",
      "Bending strength",
      "stress",
      "At which this very material fails or yields: nothing is taken off. Plain structural steel: 235 MPa, 34 ksi (S235, EN 10025-2, from memory).",
      false,
    ),
  ),
  ...sectionFields("pivot"),
  ...sectionFields("tip"),
];

const pivotField = field("strengths.pivot", "Pivot holds", "force", "Axle and bearings together.");
const hangerField = field("strengths.hanger", "Hanger holds", "force", "Hanger, drum and cradle.");

const stopFields: readonly FieldSpec[] = [
  field("strengths.stop.stroke", "Stop brakes over", "length", "The way it gives."),
  field("strengths.stop.force", "Stop holds", "force", "The most that it and what holds it can take."),
];

const frameFields: readonly FieldSpec[] = [
  field("strengths.frame.mass", "Frame's mass", "mass", "Of all that stands still, for tipping and sliding."),
  field(
    "strengths.frame.footprint",
    "Length of the base",
    "length",
    "Along the throw, its middle below the pivot.",
  ),
  field("strengths.frame.friction", "Friction on the ground", "ratio", "Between base and ground."),
];

const named = (kind: Kind, ...names: string[]) =>
  names.some((name) => name in machineKind(kind).schema.shape);

export function strengthChoices(kind: Kind): ChoiceSpec[] {
  return [
    ...(named(kind, "slingLength") ? slingChoices : []),
    ...(named(kind, "longArm", "armLength") ? armChoices : []),
  ];
}

export function strengthFields(kind: Kind): FieldSpec[] {
  const arm = named(kind, "longArm", "armLength");
  return [
    ...(named(kind, "slingLength") ? slingFields : []),
    ...(arm ? [...armFields, pivotField] : []),
    ...(named(kind, "counterweightMass") ? [hangerField] : []),
    ...(named(kind, "endStop", "stopAngle") ? stopFields : []),
    ...(arm ? frameFields : []),
  ];
}
