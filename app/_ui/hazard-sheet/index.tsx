/**
 * A whole hazard sheet, for the screen and for two pages of paper, in the order in which a safety officer asks: how
 * far forward, how far back, how wide, how high, what may break, how sure, what was not modelled. Beside each number
 * stands what decides it. Pure: it shows what it is given.
 */
import type { ReactNode } from "react";
import type { Air, Declaration, HazardSheet, Policy, Terrain } from "@/lib/throw";
import type { UnitSystem } from "@/lib/units";
import { Caution } from "../caution";
import { Notice } from "../notice";
import { Breaks, Notes } from "./breaks";
import { CalibrationCaution, Certainty } from "./certainty";
import { ConditionsTable } from "./conditions";
import { DeclaredTable, toleranceIn } from "./declared";
import { Fold } from "./fold";
import "./hazard-sheet.css";
import { Reaches } from "./reaches";
import { SignOff } from "./sign-off";
import { type Heading, inWords, kindTitle, parameterWords } from "./words";

export interface HazardSheetViewProps {
  sheet: HazardSheet;
  system: UnitSystem;
  /** What it was computed from; shown as a table when given. */
  declaration?: Declaration;
  /** Shown beside the declaration. */
  air?: Air;
  terrain?: Terrain;
  policy?: Policy;
  /** Of which machine and revision: "Old Thunderbolt, revision 3". */
  heading?: ReactNode;
  /** Lines that only the page knows: hash of the inputs, when it was made. */
  facts?: readonly { label: string; value: ReactNode }[];
  /** Level of the sheet's own heading; those inside follow it. */
  level?: 1 | 2;
}

export function HazardSheetView(props: HazardSheetViewProps) {
  const { sheet, system, declaration, air, terrain, policy, level = 2 } = props;
  const Title = level === 1 ? "h1" : "h2";
  const Part = level === 1 ? "h2" : "h3";
  const assumed = declaration ? (name: string) => toleranceIn(declaration, name)?.assumed ?? false : null;
  return (
    <article className="sheet">
      <Title className="sheet-title">{props.heading ?? `Hazard sheet: ${kindTitle(sheet.kind)}`}</Title>
      {isOld(sheet) ? (
        <Notice title="Computed by an earlier version: compute again">
          <p>Failures, loads, tolerances or dispersion are missing from it. What it has is shown.</p>
        </Notice>
      ) : null}
      {sheet.calibration ? <CalibrationCaution calibration={sheet.calibration} /> : null}
      <Warnings sheet={sheet} system={system} />
      <Reaches {...{ sheet, system, declaration, policy }} part={Part} caution={<SheetCautions />} />
      <Breaks sheet={sheet} system={system} part={Part} />
      <Certainty sheet={sheet} system={system} assumed={assumed} part={Part} />
      <Lists sheet={sheet} system={system} part={Part} />
      {declaration ? (
        <section>
          <Part>Computed from</Part>
          <Fold title="What was declared, and under which policy">
            <div className="sheet-inputs">
              <DeclaredTable declaration={declaration} system={system} />
              <ConditionsTable air={air} terrain={terrain} policy={policy} system={system} />
            </div>
          </Fold>
        </section>
      ) : null}
      <dl className="sheet-facts">
        {[{ label: "Code version", value: sheet.codeVersion }, ...(props.facts ?? [])].map(
          ({ label, value }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{value}</dd>
            </div>
          ),
        )}
      </dl>
      <SignOff />
    </article>
  );
}

/** Sheets stay in the record as they were computed: earlier versions told less. */
const isOld = ({ faults, loads, dispersion, search, worst }: HazardSheet) =>
  !faults || !loads || !dispersion || !search.varied || !worst.forward.load;

function Warnings({ sheet, system }: { sheet: HazardSheet; system: UnitSystem }) {
  const { kind, worst } = sheet;
  const { sensitive } = worst;
  // The list below says the same of each sensitive parameter, by its name on the form.
  const warnings = sheet.warnings.filter(({ code }) => code !== "sensitive");
  if (warnings.length === 0 && sensitive.length === 0) return null;
  return (
    <Caution kind="warning">
      <ul className="sheet-warnings">
        {warnings.map(({ code, text }) => (
          <li key={code + text}>{inWords(text, kind, system)}</li>
        ))}
        {sensitive.map(({ parameter, change }) => (
          <li key={parameter}>
            {parameterWords(kind, parameter).label}: half a percent of it moves the worst throw by{" "}
            {(Math.abs(change) * 100).toFixed(0)} %. Measure it again, and again on the day.
          </li>
        ))}
      </ul>
    </Caution>
  );
}

/** The cautions that stand beside every computed distance. */
export function SheetCautions() {
  return (
    <Caution kind="mandatory" title="the safety officer decides">
      <p>
        Computed from declared numbers: measure the machine before it is armed. What is not modelled may
        exceed these distances. The safety officer, local codes and licensed practice decide who stands where;
        nothing here is a clearance.
      </p>
    </Caution>
  );
}

function Lists({ sheet, system, part: Part }: { sheet: HazardSheet; system: UnitSystem; part: Heading }) {
  const { kind } = sheet;
  const more = [
    ...(sheet.faults ?? []).flatMap(({ assumptions }) => assumptions),
    ...(sheet.loads?.assumptions ?? []),
  ];
  const words = (items: readonly string[]) => [...new Set(items)].map((text) => inWords(text, kind, system));
  return (
    <div className="sheet-lists">
      <section>
        <Part>Not modelled</Part>
        <Notes items={words(sheet.notModelled)} run />
      </section>
      <section>
        <Part>Assumed</Part>
        <Fold title="What was taken for granted">
          <Notes items={words([...sheet.assumptions, ...more])} run />
        </Fold>
      </section>
    </div>
  );
}
