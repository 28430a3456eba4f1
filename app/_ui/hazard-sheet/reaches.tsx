/** How far forward, back, wide and high: each number with what decides it. */
import type { ReactNode } from "react";
import type { Declaration, HazardSheet, Policy } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { SafetySign } from "../caution";
import { Fold } from "./fold";
import { ReachDrawing, ReachTable } from "./reach-drawing";
import { deciderOf, throwWords, type Way } from "./reasons";
import { ThrowTable } from "./throw-table";
import {
  distanceText,
  energyText,
  type Heading,
  heightText,
  keptDistanceText,
  otherSystem,
  speedText,
} from "./words";

/** Nearer than this it falls where the machine stands, m. */
const DROPS = 0.05;

interface Props {
  sheet: HazardSheet;
  system: UnitSystem;
  declaration: Declaration | undefined;
  policy: Policy | undefined;
  part: Heading;
}

/** @param props.caution stands below the drawing */
export function Reaches(props: Props & { caution: ReactNode }) {
  const { sheet, system } = props;
  const { exclusion } = sheet;
  return (
    <div className="sheet-exclusion">
      <div className="sheet-picture">
        <p className="sheet-danger">
          <SafetySign kind="prohibition" size={34} /> Exclusion distances: nobody inside
        </p>
        <ReachDrawing reach={exclusion.reach} exclusion={exclusion} system={system} />
        <p>
          From the firing point, in every direction as drawn. Margins, bounce and roll, and angles off the
          plane of the throw are in it. Rounded up.
        </p>
        <Fold title="Reach in figures" screenOnly>
          <ReachTable reach={exclusion.reach} system={system} />
        </Fold>
        {props.caution}
      </div>
      <div className="sheet-questions">
        <Thrown {...props} way="forward" title="How far forward" label="Forward" />
        <Thrown {...props} way="backward" title="How far back" label="Backward" />
        <Wide {...props} />
        <High {...props} />
      </div>
      <Fold title="The throws in figures" screenOnly shut={false}>
        <ThrowTable
          throws={sheet}
          system={system}
          caption="Throws: first impact from the firing point, instants from the trigger"
        />
      </Fold>
    </div>
  );
}

function Kept({ label, metres, system }: { label: string; metres: number; system: UnitSystem }) {
  return (
    <p className="sheet-kept">
      <span className="sheet-kept-label">{label}</span>
      <span>
        <strong>{keptDistanceText(metres, system)}</strong>{" "}
        <span className="sheet-soft">{keptDistanceText(metres, otherSystem(system))}</span>
      </span>
    </p>
  );
}

function Why({ children }: { children: ReactNode }) {
  return (
    <p className="sheet-why">
      <strong>What decides it:</strong> {children}
    </p>
  );
}

function Thrown({
  sheet,
  system,
  declaration,
  policy,
  part: Part,
  way,
  title,
  label,
}: Props & { way: "forward" | "backward"; title: string; label: string }) {
  const { worst } = sheet;
  const early = worst.firstPass[way];
  // Where a hang-up reaches no farther, the plainer throw is the one to tell of.
  const plain = policy?.hangUp === false || early.distance >= worst[way].distance * 0.9999;
  const thrown = plain ? early : worst[way];
  const words = thrown.distance < DROPS ? [] : throwWords(thrown, sheet, system, declaration);
  return (
    <section>
      <Part>{title}</Part>
      <Kept label={label} metres={sheet.exclusion[way]} system={system} />
      <Why>{deciderOf(sheet, way, system, policy).text}</Why>
      <p>
        <strong>
          {words.length > 0
            ? `Worst throw ${way}s, first impact ${distanceText(thrown.distance, system)}.`
            : `Nothing was found that is thrown ${way}s.`}
        </strong>{" "}
        {words.join(" ")} {hangUps(sheet, policy, way, system)}
      </p>
    </section>
  );
}

/** What hang-ups cost, or that they are left out. */
function hangUps(
  { worst, nominal, nominalReason }: HazardSheet,
  policy: Policy | undefined,
  way: "forward" | "backward",
  system: UnitSystem,
): string {
  const never = nominal || way === "backward" ? "" : ` As meant, nothing is thrown: ${nominalReason ?? ""}`;
  const more = worst[way].distance - worst.firstPass[way].distance;
  if (more < 0.5) return never;
  if (policy?.hangUp === false) {
    return `The policy leaves hang-ups out: they would reach ${distanceText(worst[way].distance, system)}.${never}`;
  }
  return `Without hang-ups ${distanceText(worst.firstPass[way].distance, system)}.${never}`;
}

function Wide({ sheet, system, policy, part: Part }: Props) {
  const way: Way = "side";
  return (
    <section>
      <Part>How wide</Part>
      <Kept label="To each side" metres={sheet.exclusion.side} system={system} />
      <Why>{deciderOf(sheet, way, system, policy).text}</Why>
    </section>
  );
}

function High({ sheet, system, declaration, part: Part }: Props) {
  const { sweep, impact, nominal, ceiling } = sheet;
  const metres = (value: number) => formatQuantity(value, "distance", system, { digits: 0 });
  return (
    <section>
      <Part>How high</Part>
      <p className="sheet-kept">
        <span className="sheet-kept-label">Highest above the ground</span>
        <strong>{keptDistanceText(sheet.apex, system)}</strong>
      </p>
      <Why>
        The steepest throw of every release instant and machine tried, with gust and lift
        {nominal ? `; as meant it flies up to ${metres(nominal.apex)}` : ""}.{" "}
        {sheet.apexBy ? throwWords(sheet.apexBy, sheet, system, declaration)[0] : ""}
      </Why>
      <ul className="sheet-tight">
        {sweep ? (
          <li>
            The machine itself reaches {heightText(sweep.all.height, system)} up (
            {sweep.by.height.toLowerCase()}), {heightText(sweep.all.forward, system)} ahead and{" "}
            {heightText(sweep.all.backward, system)} behind the firing point. Overhead lines: ask who runs
            them how far to stay away.
          </li>
        ) : null}
        <li>
          Hardest first impact {energyText(impact.energy, system)}: {impact.exceeds ? "above" : "below"} the{" "}
          {energyText(impact.threshold, system)} that can injure gravely.{" "}
          {impact.by ? throwWords(impact.by, sheet, system, declaration)[0] : ""}
        </li>
        <li>
          {nominal
            ? `As meant: ${distanceText(nominal.distance, system)} in ${nominal.flightTime.toFixed(1)} s, arriving at ${speedText(nominal.impactSpeed, system)}. `
            : ""}
          The stored energy forbids any throw beyond {distanceText(ceiling.distance, system)}.
        </li>
      </ul>
    </section>
  );
}
