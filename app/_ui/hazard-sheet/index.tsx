/**
 * A whole hazard sheet, for the screen and for paper: what nobody may enter, which throws made it so, what was
 * assumed, what was left out, and who decides. Pure: it shows what it is given.
 */
import type { ReactNode } from "react";
import type { Air, Declaration, HazardSheet, Policy } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { Caution, SafetySign } from "../caution";
import { ConditionsTable, DeclaredTable } from "./declared";
import "./hazard-sheet.css";
import { ReachDrawing, ReachTable } from "./reach-drawing";
import { circumstances, ThrowTable } from "./throw-table";
import {
  distanceText,
  energyText,
  heightText,
  instantText,
  keptDistanceText,
  kindTitle,
  otherSystem,
  parameterWords,
  speedText,
} from "./words";

export interface HazardSheetViewProps {
  sheet: HazardSheet;
  system: UnitSystem;
  /** What it was computed from; shown as a table when given. */
  declaration?: Declaration;
  /** Shown beside the declaration. */
  air?: Air;
  policy?: Policy;
  /** Of which machine and revision: "Old Thunderbolt, revision 3". */
  heading?: ReactNode;
  /** Lines that only the page knows: hash of the inputs, when it was made. */
  facts?: readonly { label: string; value: ReactNode }[];
  /** Level of the sheet's own heading; those inside follow it. */
  level?: 1 | 2;
}

export function HazardSheetView(props: HazardSheetViewProps) {
  const { sheet, system, declaration, air, policy, level = 2 } = props;
  const Title = level === 1 ? "h1" : "h2";
  const Part = level === 1 ? "h2" : "h3";
  return (
    <article className="sheet">
      <Title className="sheet-title">{props.heading ?? `Hazard sheet: ${kindTitle(sheet.kind)}`}</Title>
      <Exclusion sheet={sheet} system={system} part={Part} />
      <Worst sheet={sheet} system={system} policy={policy} part={Part} />
      <Warnings sheet={sheet} part={Part} />
      <Figures sheet={sheet} system={system} part={Part} />
      <Part>Who decides</Part>
      <SheetCautions />
      <Lists sheet={sheet} part={Part} />
      {declaration ? (
        <>
          <Part>Computed from</Part>
          <div className="sheet-inputs">
            <DeclaredTable declaration={declaration} system={system} />
            <ConditionsTable air={air} policy={policy} system={system} />
          </div>
        </>
      ) : null}
      <dl className="sheet-facts">
        <Fact label="Code version">{sheet.codeVersion}</Fact>
        <Fact label="Search">
          {sheet.search.instants} release instants, {sheet.search.flights} flights, followed for{" "}
          {sheet.search.horizon.toFixed(2)} s; worst throws within {percent(sheet.search.allowance)}
        </Fact>
        {props.facts?.map((fact) => (
          <Fact key={fact.label} label={fact.label}>
            {fact.value}
          </Fact>
        ))}
      </dl>
    </article>
  );
}

type Heading = "h2" | "h3";

const percent = (fraction: number) => `${Number((fraction * 100).toPrecision(1))} %`;

function Fact({ label, children }: { label: string; children: ReactNode }) {
  return (
    <div>
      <dt>{label}</dt>
      <dd>{children}</dd>
    </div>
  );
}

function Exclusion({ sheet, system, part: Part }: { sheet: HazardSheet; system: UnitSystem; part: Heading }) {
  const { exclusion } = sheet;
  const big = (label: string, metres: number) => (
    <div className="sheet-kept">
      <dt>{label}</dt>
      <dd>
        <strong>{keptDistanceText(metres, system)}</strong>{" "}
        <span>{keptDistanceText(metres, otherSystem(system))}</span>
      </dd>
    </div>
  );
  return (
    <section>
      <Part className="sheet-danger">
        <SafetySign kind="prohibition" size={34} /> Exclusion distances: nobody inside
      </Part>
      <div className="sheet-exclusion">
        <ReachDrawing reach={exclusion.reach} exclusion={exclusion} system={system} />
        <div>
          <dl className="sheet-distances">
            {big("Forward", exclusion.forward)}
            {big("Backward", exclusion.backward)}
            {big("To each side", exclusion.side)}
          </dl>
          <p>
            From the firing point, in every direction as drawn: margins, bounce and roll, and angles off the
            plane of the throw are in it. Rounded up.
          </p>
          <details>
            <summary>Reach in figures</summary>
            <ReachTable reach={exclusion.reach} system={system} />
          </details>
        </div>
      </div>
    </section>
  );
}

function Worst({
  sheet,
  system,
  policy,
  part: Part,
}: {
  sheet: HazardSheet;
  system: UnitSystem;
  policy?: Policy;
  part: Heading;
}) {
  const { worst, kind } = sheet;
  const told = (direction: "forward" | "backward") => {
    const thrown = worst[direction];
    if (thrown.releaseTime === null) return `Nothing was found that flies ${direction}s.`;
    const how = circumstances(thrown, kind, system);
    return `${direction === "forward" ? "Forwards" : "Backwards"} ${distanceText(thrown.distance, system)}: let go ${instantText(thrown.releaseTime)} after the trigger${how ? `, ${how}` : ""}.`;
  };
  const cost = (direction: "forward" | "backward") => {
    const metres = worst[direction].distance - worst.firstPass[direction].distance;
    return metres < 0.05 ? "none" : distanceText(metres, system);
  };
  const hangUps = policy?.hangUp === false;
  return (
    <section>
      <Part>Worst throws, to the first impact</Part>
      <ul>
        <li>{told("forward")}</li>
        <li>{told("backward")}</li>
        <li>
          {hangUps
            ? `Hang-ups are left out of the exclusion, by the safety officer: ${policy.hangUpReason}`
            : "Hang-ups count: a loop that does not slip and a projectile that whirls on."}{" "}
          They cost {cost("forward")} of ground ahead and {cost("backward")} behind.
        </li>
        {sheet.search.slack ? (
          <li>
            The sling goes slack in the swing; freed there, and held and caught again, were both followed.
          </li>
        ) : null}
        {sheet.search.endStop ? (
          <li>The carriage meets its end stop; holding and failing were both followed.</li>
        ) : null}
        {sheet.nominal ? null : <li>As meant, nothing is thrown. {sheet.nominalReason}</li>}
      </ul>
      <ThrowTable
        throws={sheet}
        kind={kind}
        system={system}
        caption="Throws, first impact from the firing point, instants from the trigger"
      />
    </section>
  );
}

function Warnings({ sheet, part: Part }: { sheet: HazardSheet; part: Heading }) {
  const { warnings, kind } = sheet;
  const { sensitive } = sheet.worst;
  if (warnings.length === 0 && sensitive.length === 0) return null;
  return (
    <section>
      <Part>Warnings</Part>
      <Caution kind="warning">
        <ul>
          {warnings.map(({ code, text }) => (
            <li key={code + text}>{text}</li>
          ))}
          {sensitive.map(({ parameter, change }) => (
            <li key={parameter}>
              {parameterWords(kind, parameter).label}: half a percent of it moves the worst throw by{" "}
              {(Math.abs(change) * 100).toFixed(0)} %. Measure it again, and again on the day.
            </li>
          ))}
        </ul>
      </Caution>
    </section>
  );
}

function Figures({ sheet, system, part: Part }: { sheet: HazardSheet; system: UnitSystem; part: Heading }) {
  const { ceiling, impact, nominal } = sheet;
  return (
    <section>
      <Part>Other figures</Part>
      <dl className="sheet-figures">
        <Fact label="As meant">
          {nominal
            ? `${distanceText(nominal.distance, system)}, ${nominal.flightTime.toFixed(1)} s in the air, up to ${heightText(nominal.apex, system)} high, arriving at ${speedText(nominal.impactSpeed, system)}`
            : sheet.nominalReason}
        </Fact>
        <Fact label="Highest it can go">{formatQuantity(sheet.apex, "distance", system, { digits: 0 })}</Fact>
        <Fact label="Energy at impact">
          {energyText(impact.energy, system)}: {impact.exceeds ? "above" : "below"} the{" "}
          {energyText(impact.threshold, system)} that can injure gravely
        </Fact>
        <Fact label="Ceiling">
          {distanceText(ceiling.distance, system)} at {speedText(ceiling.speed, system)}: what the stored
          energy forbids any throw to exceed
        </Fact>
      </dl>
    </section>
  );
}

/** The cautions that stand beside every computed distance. */
export function SheetCautions() {
  return (
    <Caution kind="mandatory" title="the safety officer decides">
      <p>
        Computed from declared numbers: measure the machine before it is armed. Failures (a broken arm, a torn
        sling, a dropped weight) may exceed these distances. The safety officer, local codes and licensed
        practice decide who stands where; nothing here is a clearance.
      </p>
    </Caution>
  );
}

function Lists({ sheet, part: Part }: { sheet: HazardSheet; part: Heading }) {
  const list = (items: readonly string[]) => (
    <ul>
      {items.map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
  return (
    <div className="sheet-lists">
      <section>
        <Part>Assumed</Part>
        {list(sheet.assumptions)}
      </section>
      <section>
        <Part>Not modelled</Part>
        {list(sheet.notModelled)}
      </section>
    </div>
  );
}
