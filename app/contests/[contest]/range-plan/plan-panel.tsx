/** What stands beside the drawing on its sheet: scale, north, signs, caution, and a place to sign. */
import { SafetySign } from "@/app/_ui/caution";
import { featureStyle } from "@/app/_ui/map/feature-style";
import map from "@/app/_ui/map/map.module.css";
import { PATTERN, patternIn } from "@/app/_ui/map/patterns";
import { contestDays } from "@/app/_ui/words";
import { kindTitle } from "@/app/_ui/zones/scene-of";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { scaleBar, scaleWords } from "./plan-scale";
import type { PlanView } from "./plan-view";
import { drawnOn, magneticWords, openConflicts } from "./plan-words";
import styles from "./range-plan.module.css";

/** Longest scale bar that fits the panel, mm. */
const BAR = 38;

export function PlanPanel({
  plan,
  machines,
  together,
  view,
  system,
  paper,
}: {
  plan: RangePlan;
  machines: readonly PlanMachine[];
  together: boolean;
  view: PlanView;
  system: UnitSystem;
  /** What the scale holds on: "A4". */
  paper: string;
}) {
  const { contest } = plan;
  const drawn = drawnOn(plan);
  const kinds = [...new Set(drawn.map(({ kind }) => kind))];
  return (
    <div className={styles.panel}>
      <div>
        <p className={styles.title}>{contest.name}</p>
        <p>
          {[contest.place, contestDays(contest)].filter(Boolean).join(", ")}
          {contest.demo && ". An invented contest."}
        </p>
        <p className={styles.scale}>
          {scaleWords(view.scale, system)} on {paper}
        </p>
        <div className={styles.measures}>
          <ScaleBar scale={view.scale} system={system} />
          <NorthArrow declination={contest.declination} />
        </div>
        <p className={styles.small}>
          North is up. {magneticWords(contest.declination)} Printed at 100 %, the bar measures what it says:
          check it with a ruler.
        </p>
      </div>
      <ul className={styles.legend} aria-label="Signs on the plan">
        {machines.length > 0 && (
          <li>
            <Swatch>
              <rect
                x="1"
                y="0.6"
                width="7"
                height="2.8"
                className={map.zoneEdge}
                strokeWidth="0.5"
                style={{
                  fill: `url(#${patternIn("plan", machines.length > 1 && !together ? PATTERN.zones : PATTERN.zone)})`,
                }}
              />
            </Swatch>
            Keep-out zone{machines.length < 2 ? "" : together ? " of all machines" : "s"}; dashes: bearing
          </li>
        )}
        {kinds.map((kind) => (
          <li key={kind}>
            <KindSwatch kind={kind} line={drawn.some((one) => one.kind === kind && isLine(one))} />
            {kindTitle(kind)}
          </li>
        ))}
        {openConflicts(machines).length > 0 && (
          <li>
            <strong className={styles.touchedWord}>⚠ name</strong> Touched by a zone, or too near
          </li>
        )}
        <li>
          <Swatch>
            <circle cx="4.5" cy="2" r="1.7" className={map.point} />
          </Swatch>
          Firing point
        </li>
        {plan.controlPoints.length > 0 && (
          <li>
            <Swatch>
              <g className={styles.peg} transform="translate(4.5 2.3)">
                <path d="M0 -1.5 1.3 0.9H-1.3Z" />
              </g>
            </Swatch>
            Control point
          </li>
        )}
      </ul>
      <div>
        <div className={styles.warning}>
          <SafetySign kind="warning" />
          <span>
            <strong>Warning: failures may go farther than any zone drawn here.</strong> Computed from what the
            teams declared and the safety officer&rsquo;s policy. The safety officer and local codes decide.
          </span>
        </div>
        <p className={styles.small}>
          Scorebook entry {plan.scorebook.sequence}
          <br />
          <span className={styles.hash}>{plan.scorebook.head}</span>
        </p>
        <div className={styles.sign}>
          {["Safety officer", "Landowner or service"].map((who) => (
            <div key={who}>
              <span>{who}</span>
              <span>Date</span>
            </div>
          ))}
        </div>
      </div>
    </div>
  );
}

const isLine = ({ geometry }: { geometry: { type: string } }) => geometry.type === "LineString";

const Swatch = ({ children }: { children: React.ReactNode }) => (
  <svg viewBox="0 0 9 4" aria-hidden="true" focusable="false">
    {children}
  </svg>
);

function KindSwatch({ kind, line }: { kind: string; line: boolean }) {
  const style = featureStyle(kind);
  const dashes = (pixels: string | undefined) =>
    pixels
      ?.split(" ")
      .map((length) => Number(length) * 0.2)
      .join(" ");
  if (line || kind === "boundary") {
    const edge = style.pattern ? `${style.className}Edge` : style.className;
    return (
      <Swatch>
        <path
          d="M0.5 2H8.5"
          className={map[edge]}
          strokeWidth={style.weight * 0.2}
          strokeDasharray={dashes(style.dashes)}
        />
        {style.over && (
          <path
            d="M0.5 2H8.5"
            className={map[style.over.className]}
            strokeWidth={style.over.weight * 0.2}
            strokeDasharray={dashes(style.over.dashes)}
          />
        )}
      </Swatch>
    );
  }
  return (
    <Swatch>
      <rect
        x="1"
        y="0.6"
        width="7"
        height="2.8"
        strokeWidth="0.4"
        className={map[style.pattern ? `${style.className}Edge` : style.className]}
        style={style.pattern ? { fill: `url(#${patternIn("plan", style.pattern)})` } : {}}
      />
    </Swatch>
  );
}

/** Alternating blocks; the numbers at its ends and its middle. */
function ScaleBar({ scale, system }: { scale: number; system: UnitSystem }) {
  const { units, length, parts } = scaleBar(scale, system, BAR);
  const unit = system === "us" ? "ft" : "m";
  const part = length / parts;
  const wide = BAR + 10;
  return (
    <svg
      className={styles.drawing}
      viewBox={`-2 0 ${wide} 8`}
      style={{ "--wide": wide, "--high": 8 } as React.CSSProperties}
      role="img"
      aria-label={`Scale bar of ${units} ${unit}`}
    >
      <rect
        y="4.2"
        width={length}
        height="2.2"
        fill="#fff"
        stroke="#1d1b16"
        strokeWidth="0.25"
        data-bar={`${units} ${unit}`}
      />
      {Array.from({ length: Math.ceil(parts / 2) }, (_, index) => index * 2).map((index) => (
        <rect key={index} x={index * part} y="4.2" width={part} height="2.2" fill="#1d1b16" />
      ))}
      {[0, units].map((value) => (
        <text key={value} className={styles.barNumber} x={value === 0 ? 0 : length} y="3.2">
          {value === 0 ? "0" : `${value} ${unit}`}
        </text>
      ))}
    </svg>
  );
}

/** Filled: true north. Open, with an M: magnetic north. */
function NorthArrow({ declination }: { declination: number }) {
  const shown = Math.abs(declination) >= 0.05;
  return (
    <svg
      className={styles.drawing}
      viewBox="-8 -13 16 16"
      style={{ "--wide": 16, "--high": 16 } as React.CSSProperties}
      role="img"
      aria-label={`True north is up. ${magneticWords(declination)}`}
    >
      <path d="M0 -10.5 1.6 2 0 0.6-1.6 2Z" fill="#1d1b16" />
      <text className={styles.barNumber} y="-11">
        N
      </text>
      {shown && (
        <g transform={`rotate(${declination})`} fill="none" stroke="#1d1b16" strokeWidth="0.3">
          <path d="M0 2V-7.2M-0.9 -5.6 0 -7.6 0.9 -5.6" />
        </g>
      )}
      {shown && (
        <text className={styles.barNumber} x={declination > 0 ? 4.5 : -4.5} y="-5">
          M
        </text>
      )}
    </svg>
  );
}
