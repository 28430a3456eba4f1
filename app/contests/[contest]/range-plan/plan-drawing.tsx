/**
 * The range to scale: the same vector layers as on the map, in millimetres of paper, north up. What is in the picture
 * stands in the tables too.
 */
import { featureStyle } from "@/app/_ui/map/feature-style";
import map from "@/app/_ui/map/map.module.css";
import { PATTERN, PatternDefs, patternIn } from "@/app/_ui/map/patterns";
import { labelPlace } from "@/app/_ui/map/scene";
import { callouts } from "@/app/_ui/zones/scene-of";
import { distancesOnPaper } from "@/app/_ui/zones/zone-distances";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import { groundDirect } from "@/lib/earth";
import type { UnitSystem } from "@/lib/units";
import { linesOf } from "@/lib/zones/lines";
import { LETTERS, type PlanLabel, placeLabels } from "./plan-labels";
import { gridStep } from "./plan-scale";
import type { Place, PlanView } from "./plan-view";
import { cornerText, drawnOn, keepOff, openConflicts } from "./plan-words";
import styles from "./range-plan.module.css";

/** Ids of this drawing's hatchings. */
const DRAWING = "plan";
/** A pixel of the map's styles on paper, mm. */
const PIXEL = 0.2;
/** Up to so many zones carry their distances in the picture; more would cover it. */
const FEW = 3;

const fill = (pattern: string) => ({ fill: `url(#${patternIn(DRAWING, pattern)})` });

export function PlanDrawing({
  plan,
  machines,
  together,
  view,
  system,
}: {
  plan: RangePlan;
  /** Whose zones are drawn. */
  machines: readonly PlanMachine[];
  /** All zones as one outline, in place of each machine's own. */
  together: boolean;
  view: PlanView;
  system: UnitSystem;
}) {
  const { width, height } = view.map;
  const path = (lines: readonly (readonly Place[])[], close: boolean) =>
    lines
      .map((line) => {
        const points = line.map((place) => view.toPaper(place));
        return `M${points.map(({ x, y }) => `${x.toFixed(3)} ${y.toFixed(3)}`).join("L")}${close ? "Z" : ""}`;
      })
      .join("");
  const points = new Map(plan.firingPoints.map((point) => [point.id, point]));
  const touched = new Set(openConflicts(machines).map(({ conflict }) => conflict.featureId));
  const labels: PlanLabel[] = [];

  return (
    <svg
      className={styles.drawing}
      viewBox={`0 0 ${width} ${height}`}
      style={{ "--wide": width, "--high": height } as React.CSSProperties}
      role="img"
      aria-label={`Range plan at 1:${view.scale}: ${plan.features.length} site features, ${plan.firingPoints.length} firing points, ${machines.length} keep-out zones. The tables below say the same.`}
      data-scale={view.scale}
    >
      <PatternDefs drawing={DRAWING} scale={PIXEL} />
      <defs>
        <clipPath id="plan-window">
          <rect width={width} height={height} />
        </clipPath>
      </defs>
      <rect width={width} height={height} fill="#fff" />
      <g clipPath="url(#plan-window)">
        <Grid view={view} system={system} />
        {drawnOn(plan).map(({ id, kind, name, geometry }) => {
          const style = featureStyle(kind);
          const lines = linesOf(geometry);
          const at = labelPlace(geometry);
          if (at) {
            const { x, y } = view.toPaper([at.longitude, at.latitude]);
            const hit = touched.has(id);
            labels.push({
              x,
              y,
              text: hit ? `⚠ ${name}` : name,
              look: hit ? "touched" : "feature",
              priority: hit ? 8 : 4,
            });
          }
          if (geometry.type === "Point") {
            const { x, y } = view.toPaper(geometry.coordinates);
            return (
              <rect
                key={id}
                className={map[style.className]}
                x={x - 1}
                y={y - 1}
                width={2}
                height={2}
                strokeWidth={0.4}
                style={{ fill: "#fff" }}
              />
            );
          }
          const area = geometry.type === "Polygon" && kind !== "boundary";
          const d = path(lines, geometry.type === "Polygon");
          const shape = area
            ? style.pattern
              ? { className: map[`${style.className}Edge`], style: fill(style.pattern) }
              : { className: map[style.className] }
            : {
                className: map[style.pattern ? `${style.className}Edge` : style.className],
                style: { fill: "none" },
              };
          return (
            <g key={id} data-feature={name}>
              <path
                d={d}
                {...shape}
                strokeWidth={(area ? Math.min(style.weight, 2) : style.weight) * PIXEL}
                strokeDasharray={dashes(style.dashes)}
              />
              {style.over && !area && (
                <path
                  d={d}
                  className={map[style.over.className]}
                  style={{ fill: "none" }}
                  strokeWidth={style.over.weight * PIXEL}
                  strokeDasharray={dashes(style.over.dashes)}
                />
              )}
            </g>
          );
        })}
        {together && plan.union.geometry && (
          <path
            d={path(linesOf<[number, number]>(plan.union.geometry), true)}
            className={map.zoneEdge}
            style={fill(PATTERN.zone)}
            strokeWidth={0.6}
            strokeLinejoin="round"
            data-zone="all"
          />
        )}
        {machines.map((machine) => {
          const origin = points.get(machine.firingPointId);
          if (!machine.zone || !origin) return null;
          const start = view.toPaper([origin.longitude, origin.latitude]);
          const marks = callouts(
            { ...machine, accuracy: origin.accuracy },
            machine.zone.coordinates[0] ?? [],
            origin,
          );
          for (const { which, distance, at } of marks) {
            if (machines.length > FEW && which !== "forward") continue;
            labels.push({
              ...view.toPaper([at.longitude, at.latitude]),
              text:
                machines.length > FEW
                  ? `${machine.name} ${keepOff(distance, system)}`
                  : machines.length === 1
                    ? `${which} ${keepOff(distance, system)}`
                    : `${machine.name}, ${which} ${keepOff(distance, system)}`,
              look: "zone",
              priority: which === "forward" ? 10 : 9,
            });
          }
          const tip = groundDirect(
            origin,
            machine.bearing,
            distancesOnPaper(machine, plan.firingPoints)?.forward ?? 0,
            origin.height,
          );
          const end = view.toPaper([tip.longitude, tip.latitude]);
          return (
            <g key={machine.id} data-zone={machine.name}>
              {!together && (
                <path
                  d={path(machine.zone.coordinates, true)}
                  className={map.zoneEdge}
                  style={fill(machines.length > 1 ? PATTERN.zones : PATTERN.zone)}
                  strokeWidth={0.6}
                  strokeLinejoin="round"
                />
              )}
              <path
                d={`M${start.x} ${start.y}L${end.x} ${end.y}`}
                className={map.aim}
                strokeWidth={0.25}
                strokeDasharray="2 1"
              />
            </g>
          );
        })}
        {plan.controlPoints.map(({ id, name, longitude, latitude }) => {
          const { x, y } = view.toPaper([longitude, latitude]);
          labels.push({ x, y: y - 2.6, text: name, look: "pegName", priority: 3 });
          return (
            <g key={id} className={styles.peg} transform={`translate(${x} ${y})`}>
              <path d="M0 -1.5 1.3 0.9H-1.3Z" />
              <circle r={0.25} />
            </g>
          );
        })}
        {plan.firingPoints.map(({ id, number, longitude, latitude }) => {
          const { x, y } = view.toPaper([longitude, latitude]);
          return (
            <g key={id} data-firing-point={number} transform={`translate(${x} ${y})`}>
              <circle r={1.9} className={map.point} strokeWidth={0.3} />
              <text className={styles.number} y={0.85}>
                {number}
              </text>
            </g>
          );
        })}
        <Labels labels={labels} view={view} plan={plan} />
        <Corners view={view} />
      </g>
      <rect width={width} height={height} fill="none" stroke="#1d1b16" strokeWidth={0.5} />
    </svg>
  );
}

const dashes = (pixels: string | undefined) =>
  pixels
    ?.split(" ")
    .map((length) => Number(length) * PIXEL)
    .join(" ");

function Labels({ labels, view, plan }: { labels: readonly PlanLabel[]; view: PlanView; plan: RangePlan }) {
  // Numbers of firing points are not covered.
  const points = plan.firingPoints.map(({ longitude, latitude }) => {
    const { x, y } = view.toPaper([longitude, latitude]);
    return { left: x - 2, right: x + 2, top: y - 2, bottom: y + 2 };
  });
  return placeLabels(labels, view.map, [...points, ...cornerBoxes(view)]).map(({ x, y, text, look }) => (
    <text
      key={`${text} ${x} ${y}`}
      className={styles[look]}
      x={x}
      y={y + LETTERS[look] * 0.36}
      fontSize={LETTERS[look]}
    >
      {text}
    </text>
  ));
}

const CORNER = { width: 38, height: 4 };
function cornerBoxes({ map: { width, height } }: PlanView) {
  return [0, width - CORNER.width].flatMap((left) =>
    [0, height - CORNER.height].map((top) => ({
      left,
      top,
      right: left + CORNER.width,
      bottom: top + CORNER.height,
    })),
  );
}

/** Latitude and longitude of the four corners. */
function Corners({ view }: { view: PlanView }) {
  const { width, height } = view.map;
  return [0, width].flatMap((x) =>
    [0, height].map((y) => (
      <text
        key={`${x} ${y}`}
        className={styles.grid}
        textAnchor={x === 0 ? "start" : "end"}
        x={x === 0 ? 1 : x - 1}
        y={y === 0 ? 2.8 : y - 1.2}
      >
        {cornerText(view.toPlace(x, y))}
      </text>
    )),
  );
}

/** Lines a round distance apart, counted from the contest's middle. */
function Grid({ view, system }: { view: PlanView; system: UnitSystem }) {
  const { ground, map: size } = view;
  const step = gridStep(view.scale, system);
  const unit = system === "us" ? "ft" : "m";
  const steps = (from: number, to: number) => {
    const first = Math.ceil(from / step.metres);
    return Array.from({ length: Math.floor(to / step.metres) - first + 1 }, (_, index) => first + index);
  };
  const metre = 1000 / view.scale;
  const label = (count: number, letters: string) =>
    count === 0 ? "0" : `${Math.abs(count) * step.units} ${unit} ${letters[count < 0 ? 1 : 0]}`;
  return (
    <g className={styles.lines}>
      {steps(ground.west, ground.east).map((count) => {
        const x = (count * step.metres - ground.west) * metre;
        return (
          <g key={`e${count}`}>
            <path d={`M${x} 0V${size.height}`} />
            {x > CORNER.width && x < size.width - CORNER.width && (
              <text className={styles.grid} x={x + 0.6} y={size.height - 1.2}>
                {label(count, "EW")}
              </text>
            )}
          </g>
        );
      })}
      {steps(ground.south, ground.north).map((count) => {
        const y = (ground.north - count * step.metres) * metre;
        return (
          <g key={`n${count}`}>
            <path d={`M0 ${y}H${size.width}`} />
            {y > 8 && y < size.height - 8 && (
              <text className={styles.grid} x={1} y={y - 0.6}>
                {label(count, "NS")}
              </text>
            )}
          </g>
        );
      })}
    </g>
  );
}
