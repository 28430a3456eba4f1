/** An explanation in one sentence. */
import type { Explanation } from "../contracts/replay";

/** How lengths are written, m given. */
export interface LengthWords {
  distance: (metres: number) => string;
}

export const METRIC: LengthWords = {
  distance: (metres) => `${metres < 10 ? metres.toFixed(1) : metres.toFixed(0)} m`,
};

const seconds = (time: number) => `${Math.abs(time).toFixed(2)} s`;
const percent = (share: number) => `${Math.max(1, Math.round(100 * share))} %`;

/** Sooner or later by less than this is on time, s. */
const ON_TIME = 0.005;

const AIR: Record<Explanation["air"]["name"], (share: string) => string | null> = {
  mean: () => null,
  "low-drag": (share) => `with the drag ${share} of the way to its low value`,
  "high-drag": (share) => `with the drag ${share} of the way to its high value`,
  lift: (share) => `with ${share} of the upward lift that counts`,
  sink: (share) => `with ${share} of the lift that counts, downwards`,
  gust: (share) => `with the wind ${share} of the way to the gust`,
  worst: () => "in the worst of the air: low drag, lift, and the gust along the bearing",
};

export function sentenceOf(explanation: Explanation, words: LengthWords = METRIC): string {
  const { air, tolerance, fits, miss } = explanation;
  const parts = [...startOf(explanation, words), turnOf(explanation), AIR[air.name](percent(air.share))];
  const names = Object.keys(tolerance.corner);
  if (names.length > 0) {
    const which = names.length > 3 ? `${names.length} parameters` : names.join(", ");
    parts.push(`using ${percent(tolerance.share)} of the tolerance of ${which}`);
  }
  const said = parts.filter((part) => part !== null).join(", ");
  return `${said}; ${fits ? "fits within" : "misses by"} ${words.distance(Math.max(0.1, miss))}`;
}

function startOf(explanation: Explanation, words: LengthWords): (string | null)[] {
  const { cause, afterSlack, stop, frame, load, piece } = explanation;
  if (cause === "fault") return faultOf(explanation, words);
  return [
    causeWords(explanation),
    load === "declared"
      ? null
      : load === "piece"
        ? `only ${lowered(piece)}`
        : "something denser in its place",
    afterSlack ? "after the sling had been slack" : null,
    stop === "fails" ? "after the end stop had failed" : null,
    stop === "holds" && cause !== "as-meant" ? "after the end stop had been met" : null,
    frame === "rolling" ? "the frame rolling" : null,
  ];
}

function causeWords({ cause, delay, time, angle, speed }: Explanation): string {
  const off = delay !== null && Math.abs(delay) >= ON_TIME ? `${seconds(delay)} ${when(delay)}` : null;
  switch (cause) {
    case "as-meant":
      return off ? `As meant, ${off}` : "As meant";
    case "hang-up":
      return off ? `Hung up and left ${off}` : `Hung up and left${at(time)}`;
    case "astray":
      return `Left${at(time)} at ${Math.round(angle)}° and ${speed.toFixed(1)} m/s, not as meant`;
    default:
      return off ? `Left ${off}` : `Left${at(time)}`;
  }
}

const when = (delay: number) => (delay < 0 ? "early" : "late");
const at = (time: number | null) => (time === null || time === 0 ? "" : ` at ${seconds(time)}`);

function faultOf(
  { fault, piece, station, time, tornAt }: Explanation,
  words: LengthWords,
): (string | null)[] {
  if (fault === "machine-tips") return ["The machine tipped over, and this is where a part of it came down"];
  const from = station === null ? "" : `, broken ${words.distance(station)} from the pivot,`;
  return [
    `${piece}${from} came free${at(time)}`,
    tornAt === null ? null : `after the sling had torn at ${seconds(tornAt)}`,
  ];
}

function turnOf({ turn, turnBy, cause }: Explanation): string | null {
  const degrees = Math.round(Math.abs(turn));
  if (turnBy === "none" || degrees === 0) return null;
  const side = turn < 0 ? "left" : "right";
  if (turnBy === "torn-sling" && cause !== "fault")
    return `turned ${degrees}° to the ${side} as by a torn sling leg`;
  if (turnBy === "all-round" && cause === "fault") return null;
  if (turnBy === "all-round") return `${degrees}° to the ${side} of where the arm is meant to let go`;
  return `${degrees}° to the ${side}`;
}

const lowered = (text: string) => text.charAt(0).toLowerCase() + text.slice(1);
