/** What can lie around a range, and what a keep-out zone may do to it. */

export const FEATURE_KIND_NAMES = [
  "boundary",
  "spectators",
  "road",
  "building",
  "car-park",
  "overhead-line",
  "water",
  "crew-shelter",
  "path",
  "post",
] as const;
export type FeatureKindName = (typeof FEATURE_KIND_NAMES)[number];

/**
 * contains: every zone must stay inside. protected: no zone may touch it or come nearer than the stand-off, at any
 * time. hot: the same, but for what can be cleared: a zone may touch it, and then it stands on the stand-clear list
 * while that machine is hot. sheltered: people may be there under cover while the range is hot; on the list, not
 * refused. crossable: a zone may reach over it. The last three become protected by a stand-off of their own.
 */
export const FEATURE_RULES = ["protected", "hot", "sheltered", "crossable", "contains"] as const;
export type FeatureRule = (typeof FEATURE_RULES)[number];

export interface FeatureKind {
  kind: FeatureKindName;
  /** What a person calls it, sentence case. */
  title: string;
  /** GeoJSON geometry types it may have. */
  geometries: readonly ("Point" | "LineString" | "Polygon")[];
  rule: FeatureRule;
  /** One sentence: what the rule means here. */
  ruleText: string;
  /** m that a zone must stay away where the feature names no distance of its own. */
  standOff: number;
  /** Why that distance. Every one is common practice, no source: the safety officer and local codes decide. */
  standOffReason: string;
  /** ISO 3864 class of the sign that stands where a zone touches it; "none" where touching needs no sign. */
  sign: "prohibition" | "warning" | "mandatory" | "none";
}

export const FEATURE_KINDS: readonly FeatureKind[] = [
  {
    kind: "boundary",
    title: "Boundary",
    geometries: ["Polygon"],
    rule: "contains",
    ruleText: "Every zone must stay inside: nobody can keep people away from ground that is not the fair's.",
    standOff: 0,
    standOffReason: "The zone has its margins already, and the fence itself can be kept clear.",
    sign: "prohibition",
  },
  {
    kind: "spectators",
    title: "Spectators",
    geometries: ["Polygon", "LineString", "Point"],
    rule: "protected",
    ruleText: "No zone may touch it.",
    standOff: 10,
    standOffReason: "People lean over ropes, and children run past them.",
    sign: "prohibition",
  },
  {
    kind: "road",
    title: "Road",
    geometries: ["LineString", "Polygon"],
    rule: "protected",
    ruleText: "No zone may touch it until the agreement to close it is on file.",
    standOff: 5,
    standOffReason: "A road drawn as a line has half its width and the verge on either side.",
    sign: "prohibition",
  },
  {
    kind: "building",
    title: "Building",
    geometries: ["Polygon", "Point"],
    rule: "protected",
    ruleText: "No zone may touch it: people may be inside.",
    standOff: 5,
    standOffReason: "People step out of doors without looking at the range.",
    sign: "prohibition",
  },
  {
    kind: "car-park",
    title: "Car park",
    geometries: ["Polygon"],
    rule: "protected",
    ruleText: "No zone may touch it: people come and go.",
    standOff: 5,
    standOffReason: "Cars stand and people walk beyond the marked edge.",
    sign: "prohibition",
  },
  {
    kind: "overhead-line",
    title: "Overhead line",
    geometries: ["LineString"],
    rule: "protected",
    ruleText:
      "A zone that reaches it is always a conflict until its owner has agreed in writing: a line struck can kill far from where it was struck.",
    standOff: 15,
    standOffReason:
      "Conductors swing, and a broken one reaches sideways; ask the line's owner for the distance.",
    sign: "warning",
  },
  {
    kind: "water",
    title: "Water",
    geometries: ["Polygon", "LineString"],
    rule: "crossable",
    ruleText: "A zone may reach over it where nobody boats, bathes or fishes while the range is hot.",
    standOff: 0,
    standOffReason: "Nobody is expected there.",
    sign: "none",
  },
  {
    kind: "crew-shelter",
    title: "Crew shelter",
    geometries: ["Polygon", "Point"],
    rule: "sheltered",
    ruleText:
      "May lie in a zone, if the safety officer has accepted its cover: crew stay under it while hot.",
    standOff: 0,
    standOffReason: "The crew stands near its machine, under cover.",
    sign: "mandatory",
  },
  {
    kind: "path",
    title: "Path",
    geometries: ["LineString", "Polygon"],
    rule: "hot",
    ruleText: "A zone may reach over it while it is closed and watched: it stands on the stand-clear list.",
    standOff: 0,
    standOffReason: "It is closed where the zone is; the rest of it lies outside.",
    sign: "mandatory",
  },
  {
    kind: "post",
    title: "Post",
    geometries: ["Point"],
    rule: "hot",
    ruleText: "Whoever stands there says clear, and leaves it for the machines whose zones reach it.",
    standOff: 0,
    standOffReason: "One person who knows which machine fires.",
    sign: "mandatory",
  },
];

/** The rule, stand-off and words of one kind. Throws RangeError on a kind that there is not. */
export function featureKind(kind: string): FeatureKind {
  const found = FEATURE_KINDS.find((each) => each.kind === kind);
  if (!found) throw new RangeError(`There is no kind of site feature named “${kind}”.`);
  return found;
}

/** How a feature is to be protected: what it names itself, and whether that may be less than its kind has. */
export interface Protection {
  kind: FeatureKindName;
  /** The kind's if null or left out. */
  rule?: FeatureRule | null | undefined;
  /** m; the default of kind and rule if null or left out. */
  standOff?: number | null | undefined;
  /** Why the safety officer lets it be protected less than its kind; null or left out: nobody has. */
  allowance?: string | null | undefined;
}

/** From what protects most to what protects least. */
const STRICTEST: readonly FeatureRule[] = ["contains", "protected", "hot", "sheltered", "crossable"];

/**
 * The rule that holds for a feature: its own, or its kind's. A boundary always contains, nothing else does, and no
 * rule takes an overhead line out of protection: only its owner's agreement does that. A rule looser than the kind's
 * waits for the safety officer's allowance, and the kind's holds until then.
 */
export function ruleOf(feature: Protection): FeatureRule {
  const { rule } = featureKind(feature.kind);
  const asked = askedRule(feature);
  return feature.allowance || STRICTEST.indexOf(asked) < STRICTEST.indexOf(rule) ? asked : rule;
}

function askedRule(feature: Protection): FeatureRule {
  const { rule } = featureKind(feature.kind);
  if (rule === "contains" || feature.kind === "overhead-line") return rule;
  if (feature.rule === "contains") return "protected";
  return feature.rule ?? rule;
}

/**
 * m that a zone must stay away from a feature: its own distance; its kind's while the feature is protected. A shorter
 * one than the kind's waits for the safety officer's allowance, as a rule does.
 */
export function standOffOf(feature: Protection): number {
  const { standOff } = featureKind(feature.kind);
  const asked = askedStandOff(feature);
  return feature.allowance ? asked : Math.max(asked, standOff);
}

function askedStandOff(feature: Protection): number {
  const rule = askedRule(feature);
  const kept = rule === "protected" || rule === "contains";
  return feature.standOff ?? (kept ? featureKind(feature.kind).standOff : 0);
}

/** Whether a feature is to be protected less than its kind is by itself: a looser rule, or a shorter stand-off. */
export function isLoosened(feature: Protection): boolean {
  const { rule, standOff } = featureKind(feature.kind);
  return STRICTEST.indexOf(askedRule(feature)) > STRICTEST.indexOf(rule) || askedStandOff(feature) < standOff;
}
