/** What decides each number of a hazard sheet, in plain words. Pure. */
import {
  type Cause,
  type Declaration,
  defaultPolicy,
  type Fault,
  type HazardSheet,
  type Machine,
  machineKind,
  type Piece,
  type Policy,
  type WorstThrow,
} from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import {
  angleText,
  distanceText,
  heightText,
  instantText,
  keptDistanceText,
  loadText,
  lowerFirst,
  parameterWords,
  percentText,
  speedText,
  stationText,
  withinText,
} from "./words";

export type Way = "forward" | "backward" | "side";

/** Named with the corner; the rest stands in the table of tolerances. */
const NAMED = 3;

/** Whether the swing is followed in time: elsewhere an instant says nothing. */
const hasInstants = (kind: string) => !["measured", "spinning-arm"].includes(kind);

/** When a throw leaves, against when it should. */
export function instantWords(thrown: WorstThrow, kind: string, declaration?: Declaration): string {
  if (thrown.releaseTime === null || !hasInstants(kind)) return "";
  const sling = declaration
    ? "slingLength" in declaration.machine
    : !["tension", "air-cannon"].includes(kind);
  const should = sling ? "the loop should have slipped" : "it should have left";
  const when = thrown.hangUp ? `after ${should}: a hang-up` : `not later than ${should}`;
  return `let go ${instantText(thrown.releaseTime)} after the trigger, ${when}`;
}

/** What is out of the ordinary in a throw: hang-up, slack, stop, rolling frame, another load than declared. */
export const oddWords = (
  thrown: Pick<WorstThrow, "hangUp" | "afterSlack" | "stop" | "frame" | "load">,
): string[] =>
  [
    thrown.hangUp ? "a hang-up" : "",
    thrown.afterSlack ? "after the sling had gone slack" : "",
    thrown.stop === "holds" ? "the stop met and holding" : "",
    thrown.stop === "fails" ? "the stop met and failing" : "",
    thrown.frame === "rolling" ? "the frame rolling on its wheels" : "",
    thrown.load === "piece" ? "a piece of the projectile" : "",
    thrown.load === "substitute" ? "something denser in its place" : "",
  ].filter(Boolean);

/** Whether anything of this kind could stand on wheels. */
function hasFrame(kind: string): boolean {
  try {
    return "base" in machineKind(kind as Machine["kind"]).schema.shape;
  } catch {
    return false;
  }
}

/** Slack, stop, frame and load of a throw; what is ordinary too. */
function branchWords(thrown: WorstThrow, kind: string): string[] {
  return [
    ...oddWords({ ...thrown, hangUp: false }),
    thrown.frame === "held" && hasFrame(kind) ? "the frame held" : "",
    thrown.load === "declared" ? "the projectile as declared" : "",
  ].filter(Boolean);
}

/** The parameters of the case that made a throw, those first that matter most. */
export function cornerWords(thrown: WorstThrow, sheet: HazardSheet, system: UnitSystem): string {
  const varied = sheet.search.varied ?? [];
  const order = varied.map(({ parameter }) => parameter);
  const rank = (name: string) => (order.includes(name) ? order.indexOf(name) : order.length);
  const corner = Object.entries(thrown.corner ?? {}).sort(([a], [b]) => rank(a) - rank(b));
  if (corner.length === 0) return "everything as declared";
  const named = corner.slice(0, NAMED).map(([name, value]) => {
    const { label, dimension } = parameterWords(sheet.kind, name);
    const side = varied.find(({ parameter }) => parameter === name);
    const spread = side ? (side.high - side.low) / 2 : 0;
    return `${lowerFirst(label)} ${withinText(value, spread, dimension, system)}`;
  });
  const more = corner.length - named.length;
  return `${named.join(", ")}${more > 0 ? ` and ${more} more, as listed below` : ""}`;
}

/** A worst throw as sentences; none when nothing flies that way. */
export function throwWords(
  thrown: WorstThrow,
  sheet: HazardSheet,
  system: UnitSystem,
  declaration?: Declaration,
): string[] {
  if (thrown.releaseTime === null) return [];
  const when = instantWords(thrown, sheet.kind, declaration);
  const how =
    thrown.releaseSpeed === null || thrown.launchAngle === null || thrown.releaseHeight === null
      ? ""
      : `at ${speedText(thrown.releaseSpeed, system)}, ${aimWords(thrown.launchAngle)}, from ${heightText(thrown.releaseHeight, system)} up`;
  const stretched =
    thrown.allowance > 0
      ? ` Stretched by ${percentText(thrown.allowance)} for what the search may have missed.`
      : "";
  return [
    `${sentence([when, how].filter(Boolean).join(", "))}`,
    `${sentence(branchWords(thrown, sheet.kind).join("; "))}`,
    `Corner of the tolerances: ${cornerWords(thrown, sheet, system)}.${stretched}`,
  ].filter((text) => text !== "");
}

/** Degrees above downrange as people say it: an angle to the level, ahead or behind. */
function aimWords(degrees: number): string {
  const ahead = Math.abs(degrees) <= 90;
  const up = ahead ? degrees : Math.sign(degrees) * (180 - Math.abs(degrees));
  return `${angleText(Math.abs(up))} ${up < -0.5 ? "down" : "up"} ${ahead ? "ahead" : "behind"}`;
}

const sentence = (text: string) => (text === "" ? "" : `${text.charAt(0).toUpperCase()}${text.slice(1)}.`);

/** One piece's way to where it lands. */
export function pieceWords(piece: Piece, system: UnitSystem): string {
  const { name, mass, speed, time, tornAt, station } = piece;
  const what = mass === null ? name : `${name}, ${loadText(mass, "mass", system)}`;
  return [
    `${what}, at ${speedText(speed, system)}`,
    station === null ? "" : `broken ${stationText(station, system)}`,
    time === null ? "" : `${instantText(time)} after the trigger`,
    tornAt === null ? "" : `the sling torn at ${instantText(tornAt)}`,
  ]
    .filter(Boolean)
    .join(", ");
}

export interface Decider {
  by: "throw" | "fault" | "minimum" | "sweep";
  text: string;
}

/** What makes the zone reach as far as it does one way. */
export function deciderOf(
  sheet: HazardSheet,
  way: Way,
  system: UnitSystem,
  policy: Policy = defaultPolicy,
): Decider {
  const { margin, angles } = policy;
  const cause = sheet.exclusion.causes?.[way];
  if (!cause)
    return { by: "throw", text: "This sheet is of an earlier version, which did not say what decides." };
  if (cause.by === "minimum")
    return { by: "minimum", text: "The least distance that the policy keeps, whatever is thrown." };
  if (cause.by === "sweep")
    return { by: "sweep", text: "The circle that the machine itself sweeps, times the margin." };
  const fault = sheet.faults?.find(({ code }) => code === cause.fault);
  if (cause.by === "piece" && fault) {
    const piece = farthestPiece(fault, way);
    return {
      by: "fault",
      text: `A failure: ${lowerFirst(fault.title)}${piece ? ` (${lowerFirst(pieceWords(piece, system))})` : ""}. ${percentMargin(margin, fault.reach[way], system)}`,
    };
  }
  const left = causeWords(cause, sheet.kind);
  if (way === "side") {
    const turned = `aim ±${angles.aim}°, lean ±${angles.lean}°, a torn sling ±${angles.tornSling}°, crosswind and lift`;
    return {
      by: "throw",
      text: `A throw turned out of its plane by ${turned}; at its widest ${azimuthOf(sheet)}° off the bearing. ${left}`,
    };
  }
  const thrown = policy.hangUp ? sheet.worst[way] : sheet.worst.firstPass[way];
  const straight = cause.releaseTime !== null && thrown.releaseTime !== null && (cause.deflection ?? 0) < 1;
  if (straight && Math.abs((cause.releaseTime ?? 0) - (thrown.releaseTime ?? 0)) < SAME_INSTANT)
    return { by: "throw", text: `The worst throw. ${percentMargin(margin, thrown.distance, system)}` };
  const against = `The worst throw itself needs less: first impact ${distanceText(thrown.distance, system)}, times the margin of ${margin}, and its own bounce and roll.`;
  return {
    by: "throw",
    text: `Another throw, which rolls farther or is turned this way. ${left} ${thrown.distance > 1 ? against : ""}`.trim(),
  };
}

/** Releases nearer than this to each other are one and the same throw, s. */
const SAME_INSTANT = 0.01;

/** The throw that made the zone: when it left, how, and how far it was turned. */
function causeWords(
  { releaseTime, deflection, hangUp, afterSlack, stop, azimuth }: Cause,
  kind: string,
): string {
  const off = Math.round(Math.min(azimuth, 360 - azimuth));
  const parts = [
    releaseTime !== null && hasInstants(kind) ? `let go ${instantText(releaseTime)} after the trigger` : "",
    ...oddWords({ hangUp, afterSlack, stop, frame: "held", load: "declared" }),
    deflection !== null && deflection >= 0.5 ? `turned ${angleText(deflection)} out of its plane` : "",
    `landing ${off}° off the bearing before aim and lean`,
  ];
  return sentence(parts.filter(Boolean).join(", "));
}

const percentMargin = (margin: number, distance: number, system: UnitSystem) =>
  `First impact ${distanceText(distance, system)}, times the margin of ${margin}: ${keptDistanceText(margin * distance, system)}; the rest is bounce and roll of whatever needs most room.`;

const farthestPiece = (fault: Fault, way: Way): Piece | undefined =>
  fault.allRound
    ? [...fault.pieces].sort((a, b) => b.distance - a.distance)[0]
    : fault.pieces.find((piece) => piece.way === way);

/** Degrees off the bearing at which the zone is widest. */
function azimuthOf({ exclusion: { reach } }: HazardSheet): number {
  let widest = 0;
  const wide = (i: number) => (reach[i] ?? 0) * Math.sin((i * Math.PI) / 180);
  for (let i = 0; i <= 180; i++) if (wide(i) > wide(widest)) widest = i;
  return widest;
}
