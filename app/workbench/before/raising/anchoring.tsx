"use client";
/** What pegs and ballast must hold while the machine throws. */
import { atLeastText, atMostText } from "@/app/_ui/beside-limit";
import { instantText, loadText } from "@/app/_ui/hazard-sheet/words";
import { massText } from "@/app/_ui/inspection/texts";
import { Table } from "@/app/_ui/table";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { STANDARD_GRAVITY } from "@/lib/earth";
import { type FramePush, framePush } from "@/lib/inspection";
import { anchoring, type HazardRequest, type Stability } from "@/lib/throw";
import { useBreakage } from "../../strength/asks";
import styles from "../before.module.css";
import { type Fact, Facts, Needs, Short, Told } from "../numbers/facts";
import { Given, NumberFields } from "../numbers/number-fields";
import { type Numbers, useNumbers } from "../numbers/use-numbers";
import { PrintSection } from "../print-section";
import type { SectionProps } from "../section-props";
import { ASKS, type Name } from "./anchoring-asks";

const NAMES = Object.keys(ASKS) as Name[];
const OPTIONS = {};

/** What of it the machine declares; undefined where it does not. */
function ownOf({ machine, strengths }: HazardRequest) {
  const base = "base" in machine && typeof machine.base === "object" ? machine.base : undefined;
  const height =
    "trackHeight" in machine
      ? machine.trackHeight
      : "pivotHeight" in machine
        ? machine.pivotHeight
        : undefined;
  return {
    height,
    frameMass: strengths?.frame?.mass ?? base?.frameMass,
    footprint: strengths?.frame?.footprint ?? base?.footprint,
  };
}

interface Pushed extends FramePush {
  when: string;
}

/** What pushes the frame: as typed, or by the machine's own loads. */
function pushesOf({ value }: Numbers<Name, never>, found: SectionProps["found"]): Pushed[] {
  const [level, upward] = [value("level"), value("upward")];
  if (level !== undefined) return [{ when: "As typed", level, upward: upward ?? 0 }];
  const push = found ? framePush(found.loads) : null;
  if (!push) return [];
  const lift = (own: number) => upward ?? own;
  const { meant, hangUp } = push;
  return [
    { when: "Throw as meant, swinging on", level: meant.level, upward: lift(meant.upward) },
    ...(hangUp ? [{ when: "Hang-up", level: hangUp.level, upward: lift(hangUp.upward) }] : []),
  ];
}

export function Anchoring({ request, found, title }: SectionProps) {
  const system = useUnits();
  const gravity = found?.gravity ?? STANDARD_GRAVITY;
  const numbers = useNumbers<Name, never>("fairthrow-before-anchors", ASKS, OPTIONS);
  const own = ownOf(request);
  const value = (name: keyof typeof own) => numbers.value(name) ?? own[name];
  const [height, mass, footprint] = [value("height"), value("frameMass"), value("footprint")];
  const friction = numbers.value("friction") ?? 0;
  const pushes = pushesOf(numbers, found);
  const typed = numbers.value("level") !== undefined;
  const frame =
    height === undefined || mass === undefined || footprint === undefined
      ? null
      : { mass, footprint, height, friction };
  // With the frame as typed here every instant is reckoned by itself.
  const framed = frame && {
    ...request,
    strengths: { ...request.strengths, frame: { mass: frame.mass, footprint: frame.footprint, friction } },
  };
  const exact = useBreakage(framed);
  const stability = exact.stale ? null : (exact.answer?.loads.stability ?? null);
  const lacking = [
    ...(pushes.length === 0 ? [ASKS.level.label] : []),
    ...(["height", "frameMass", "footprint"] as const)
      .filter((name) => value(name) === undefined)
      .map((name) => ASKS[name].label),
  ];
  return (
    <>
      <p className={styles.of}>{title}</p>
      <div className="field-grid no-print">
        <NumberFields id="anchor" numbers={numbers} names={NAMES} />
      </div>
      <Given numbers={numbers} names={NAMES} />
      <Told wrong={numbers.wrong(NAMES)}>
        {frame && pushes.length > 0 ? (
          <>
            <Holding
              pushes={pushes}
              frame={frame}
              gravity={gravity}
              numbers={numbers}
              exact={typed ? null : stability && heldAtWorst(stability, frame.footprint)}
            />
            <p>
              Reckoned with a frame of {massText(frame.mass, system)} on friction {friction}.
            </p>
            {stability && <Facts facts={stabilityFacts(stability, frame, system, typed)} />}
          </>
        ) : (
          <Needs what="What pegs must hold" labels={lacking} />
        )}
      </Told>
      <p className={styles.small}>
        Assumed: the largest level push and the largest lift stand still and act at once above the middle of
        the base; what presses down meanwhile, and the torque of springs on the frame, are left out. Instant
        by instant they count, and the larger of both is what an end must be held down with in the last line;
        What may break tells that of the worst instant alone. The frame is stiff and level. The push goes to
        and fro, so both ends are held alike. Pegs work loose: look after each throw. The safety officer and
        whoever owns the ground (cables and pipes in it) decide where pegs go.
      </p>
      <PrintSection />
    </>
  );
}

function Holding({
  pushes,
  frame,
  gravity,
  numbers: { value },
  exact,
}: {
  pushes: readonly Pushed[];
  frame: Parameters<typeof anchoring>[1];
  gravity: number;
  numbers: Numbers<Name, never>;
  /** What must hold an end down by the reckoning instant by instant, N; null where there is none. */
  exact: number | null;
}) {
  const system = useUnits();
  const factor = value("factor") ?? (ASKS.factor.start as number);
  const held = (load: number, each: number | undefined) => {
    if (load <= 0) return "nothing by these numbers";
    const text = loadText(load, "force", system);
    if (each === undefined) return `${text}; type what one peg holds`;
    return `${text}: ${Math.max(2, Math.ceil((factor * load) / each))} pegs at each end, factor ${factor}`;
  };
  const rows = pushes.map((push, index) => {
    const hold = anchoring(push.level, frame, gravity, push.upward);
    // It is of all that may happen, so it belongs to the last.
    const all = index === pushes.length - 1 ? (exact ?? 0) : 0;
    return { ...push, hold: { ...hold, down: Math.max(hold.down, all) } };
  });
  return (
    <Table
      caption="What pegs and ties must hold"
      hideCaption
      stacks
      rows={rows}
      rowKey={({ when }) => when}
      columns={[
        { key: "when", head: "When", rowHead: true, cell: ({ when }) => when },
        {
          key: "push",
          head: "Pushes",
          cell: ({ level, upward }) =>
            `${loadText(level, "force", system)} level, ${loadText(upward, "force", system)} up`,
        },
        {
          key: "level",
          head: "Hold level, beyond friction",
          cell: ({ hold }) => held(hold.level, value("pegLevel")),
        },
        {
          key: "down",
          head: "Hold down at the lifting end",
          cell: ({ hold }) => held(hold.down, value("pegUp")),
        },
        {
          key: "reserve",
          head: "Down without pegs",
          cell: ({ hold: { tippingReserve } }) =>
            tippingReserve === null ? (
              "–"
            ) : tippingReserve < 1 ? (
              <Short>{atLeastText(tippingReserve)} of what lifts it</Short>
            ) : (
              `${atLeastText(tippingReserve)} of what lifts it`
            ),
        },
      ]}
    />
  );
}

/** What must hold the lifting end down at the worst instant, N. */
const heldAtWorst = ({ front, rear }: Stability, footprint: number): number =>
  Math.max(0, -Math.min(front, rear) / footprint);

/** The same instant by instant, where what presses down meanwhile counts. */
function stabilityFacts(
  stability: Stability,
  frame: { footprint: number; friction: number },
  system: UnitSystem,
  /** The table is then of other pushes than the machine's own, which count here. */
  typed: boolean,
): Fact[] {
  const { front, rear, time, friction } = stability;
  const least = Math.min(front, rear);
  const edge = front < rear ? "front" : "rear";
  // The table's last line has it, or what is more: two numbers for one tie would leave people to choose.
  const held = typed
    ? ` with ${loadText(heldAtWorst(stability, frame.footprint), "force", system)}`
    : " as the last line of the table says";
  return [
    {
      label: typed
        ? "By the machine's own loads, instant by instant, hang-ups too"
        : "Instant by instant, hang-ups too",
      text:
        least < 0
          ? `it tips over its ${edge} edge at ${instantText(time)} unless the other end is held down${held}`
          : `${loadText(least, "torque", system)} hold it down at the least, at ${instantText(time)}`,
      short: least < 0,
    },
    {
      label: "Not to slide",
      text:
        friction === null
          ? "it lifts at some instant: friction holds nothing then"
          : `needs a friction of ${atMostText(friction)}, or pegs for the rest`,
      short: friction === null || friction > frame.friction,
    },
  ];
}
