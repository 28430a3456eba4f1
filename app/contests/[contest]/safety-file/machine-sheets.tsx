/** Every machine's hazard sheet in short: distances, what it assumes, warns of and leaves out. */

import { keepOffBoth } from "@/app/_ui/kept-distance";
import { bearingText } from "@/app/_ui/words";
import { distancesOnPaper } from "@/app/_ui/zones/zone-distances";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { SheetState } from "../map/sheet-state";
import styles from "./safety-file.module.css";

type Lines = "assumptions" | "notModelled";

/** What every sheet says alike is printed once. */
function common(machines: readonly PlanMachine[], which: Lines): Set<string> {
  const sheets = machines.filter(({ exclusion }) => exclusion !== null);
  const [first, ...others] = sheets;
  if (!first || others.length === 0) return new Set();
  return new Set(first[which].filter((line) => others.every((other) => other[which].includes(line))));
}

export function MachineSheets({
  machines,
  firingPoints,
  system,
}: Pick<RangePlan, "firingPoints"> & {
  machines: readonly PlanMachine[];
  system: UnitSystem;
}) {
  const shared = {
    assumptions: common(machines, "assumptions"),
    notModelled: common(machines, "notModelled"),
  };
  const own = (machine: PlanMachine, which: Lines) =>
    machine[which].filter((line) => !shared[which].has(line));
  return (
    <>
      {machines.length === 0 && <p>No machine has a firing point and a bearing yet.</p>}
      {shared.assumptions.size + shared.notModelled.size > 0 && (
        <>
          <h3>Every sheet below</h3>
          <Listed title="Assumes" lines={[...shared.assumptions]} />
          <Listed title="Does not model" lines={[...shared.notModelled]} />
        </>
      )}
      {machines.map((machine) => (
        <article key={machine.id} aria-label={`Hazard sheet of ${machine.name}`}>
          <h3>
            {machine.name}, {machine.entrantNumber} {machine.entrantName}
          </h3>
          <p>
            Firing point {machine.firingPointNumber}, bearing {bearingText(machine.bearing)} true.
            {machine.kind && ` Kind: ${machine.kind.replaceAll("-", " ")}.`}
            {machine.revision !== null && ` Revision ${machine.revision}.`}
            {machine.sheetId && (
              <>
                {" "}
                Sheet <span className={styles.hash}>{machine.sheetId}</span>.
              </>
            )}
          </p>
          <SheetState state={machine.state} reason={machine.reason} />
          {machine.exclusion && machine.worst && (
            <p>
              Worst first impact computed: {keepOffBoth(machine.worst.forward, system)} forward,{" "}
              {keepOffBoth(machine.worst.backward, system)} back
              {machine.nominal === null
                ? "; as meant the loop never slips"
                : `; as meant ${keepOffBoth(machine.nominal, system)}`}
              . <KeepOut machine={machine} firingPoints={firingPoints} system={system} />
              {machine.apex !== null &&
                ` Highest: ${keepOffBoth(machine.apex, system)} above its ground${
                  machine.top === null ? "" : `, ${keepOffBoth(machine.top, system)} above the ellipsoid`
                }.`}
            </p>
          )}
          <Listed title="Warnings" lines={machine.warnings.map(({ text }) => text)} />
          <Listed title="Assumes" lines={own(machine, "assumptions")} />
          <Listed title="Does not model" lines={own(machine, "notModelled")} />
        </article>
      ))}
    </>
  );
}

function KeepOut({
  machine,
  firingPoints,
  system,
}: Pick<RangePlan, "firingPoints"> & { machine: PlanMachine; system: UnitSystem }) {
  const reaches = distancesOnPaper(machine, firingPoints);
  if (!reaches) return null;
  const { forward, backward, side } = reaches;
  return (
    <>
      Keep out, from the firing point: {keepOffBoth(forward, system)} forward, {keepOffBoth(backward, system)}{" "}
      back, {keepOffBoth(side, system)} to the side.
    </>
  );
}

function Listed({ title, lines }: { title: string; lines: readonly string[] }) {
  if (lines.length === 0) return null;
  return (
    <>
      <p className={styles.listed}>{title}:</p>
      <ul>
        {lines.map((line) => (
          <li key={line}>{line}</li>
        ))}
      </ul>
    </>
  );
}
