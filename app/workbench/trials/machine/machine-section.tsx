"use client";
/** What the throws say of the machine: its efficiency, its scatter, each mark against the model, and when to stop. */
import Link from "next/link";
import { Caution } from "@/app/_ui/caution";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { type trials, tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import { type Log, requestOf, type Throw } from "../log/log";
import { markText, settingText } from "../log/words";
import { offsetText } from "./offset-words";

type Machine = trials.CalibratedMachine;

/** Stands above everything else on the page. */
export function StopThrowing({ machine, system }: { machine: Machine; system: UnitSystem }) {
  const { calibration, behindWorst, worst } = machine;
  if (calibration.hold || behindWorst.length > 0)
    return (
      <Caution kind="prohibition" title="stop throwing, the model is wrong">
        <p>
          A throw went beyond the worst that is computed for this machine (
          {distanceText(worst.forward, system)} ahead, {distanceText(worst.backward, system)} behind, in the
          strongest wind that was read, with the projectile as declared and as light as any was weighed). No
          distance that follows from the model holds. Make the machine safe, keep everybody away, and find out
          why before anybody throws again: measure the machine anew and show it to whoever inspects it.
        </p>
      </Caution>
    );
  if (!calibration.alarm) return null;
  return (
    <Caution kind="warning" title="alarm: stop and find out why">
      <p>
        A throw went beyond what 99 in 100 stay below, by the throws before it. Something has changed: the
        projectile, the wind, the pin, the machine. Make it safe, look, and measure before the next throw.
      </p>
    </Caution>
  );
}

const VERDICTS: Record<Machine["calibration"]["marks"][number]["verdict"], string> = {
  unjudged: "nothing before it to judge by",
  expected: "as expected",
  short: "FAR SHORT: find out why",
  alarm: "ALARM: beyond 99 in 100",
  "model-wrong": "STOP: beyond the worst throw",
};

export function MachineSection({
  machine,
  throws,
  log,
  setting,
  stale,
  system,
}: {
  machine: Machine;
  /** Those it was made of, in the same order. */
  throws: readonly Throw[];
  log: Log;
  setting: tuning.Knob;
  stale: boolean;
  system: UnitSystem;
}) {
  const { calibration, uncertainty, coverage, fitted, worst } = machine;
  const { efficiency, scatter, degreesOfFreedom, marks, notes, alarm, hold } = calibration;
  const metres = (value: number | null) => (value === null ? "–" : distanceText(value, system));
  const said = notes.slice((hold ? 1 : 0) + (alarm ? 1 : 0));
  return (
    <div aria-busy={stale}>
      {efficiency === null ? (
        <p>No efficiency explains a mark.</p>
      ) : (
        <>
          <p data-told="efficiency">
            <strong>
              Efficiency{" "}
              {uncertainty === null
                ? efficiency.toFixed(2)
                : formatUncertain(efficiency, uncertainty, "ratio", system)}
            </strong>
            {uncertainty !== null && coverage !== null
              ? ` (95 %, k = ${coverage.toFixed(1)} for ${throws.length} throws)`
              : ""}
            : the share of the model&rsquo;s energy at release that the projectile really gets, one for all
            settings together.{" "}
            {scatter === null
              ? "One throw tells no scatter: from two on each is judged by those before it."
              : `One throw scatters by ${metres(scatter)} (one standard deviation, ${degreesOfFreedom} ${degreesOfFreedom === 1 ? "degree" : "degrees"} of freedom).`}
          </p>
          {coverage !== null && coverage > 2.5 ? (
            <p>
              With so few throws k is more than 2: Student&rsquo;s t says how little {throws.length} throws
              tell of their scatter.
            </p>
          ) : null}
        </>
      )}
      {said.length > 0 ? (
        <Notice title="What this says">
          {said.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </Notice>
      ) : null}
      <h3>Each mark against the model</h3>
      <Table
        caption="Each mark against the model"
        hideCaption
        stacks
        rows={marks}
        rowKey={(_, index) => index}
        columns={[
          {
            key: "mark",
            head: "Mark",
            rowHead: true,
            cell: (_, index) => {
              const each = throws[index];
              return each ? markText(each, system) : "";
            },
          },
          {
            key: "setting",
            head: "Setting",
            cell: (_, index) => {
              const each = throws[index];
              return each ? settingText(each.settings, tuning.knobsOf(requestOf(log, each)), system) : "";
            },
          },
          { key: "modelled", head: "Model, no loss", number: true, cell: ({ modelled }) => metres(modelled) },
          {
            key: "fitted",
            head: "Calibrated",
            number: true,
            cell: (_, index) => metres(fitted[index] ?? null),
          },
          {
            key: "off",
            head: "Off by",
            number: true,
            cell: ({ distance }, index) => {
              const there = fitted[index] ?? null;
              return there === null ? "–" : signed(distance - there, system);
            },
          },
          { key: "upper", head: "99 % below", number: true, cell: ({ upper99 }) => metres(upper99) },
          { key: "verdict", head: "Verdict", cell: ({ verdict }) => VERDICTS[verdict] },
        ]}
      />
      <p>
        Worst throws that are computed for these settings: {metres(worst.forward)} ahead,{" "}
        {metres(worst.backward)} behind. The keep-out zone is larger yet: margin, bounce, roll and pieces.
      </p>
      <p data-told="offset">{offsetText(machine.offset, setting, system)}</p>
      <details>
        <summary>What these throws cannot tell</summary>
        <ul>
          <li>
            Where the energy stays: friction, a soft sling, a light counterweight and a wrong{" "}
            {setting.label.toLowerCase()} all shorten the throw. One efficiency takes them together; read the
            release off a film to part speed from direction.
          </li>
          <li>Whether it holds at settings, winds and projectiles that were not thrown.</li>
          <li>
            Anything of the worst throws: those are never made smaller by practice. Nor of what may{" "}
            <Link href="/workbench/strength">break</Link>.
          </li>
          <li>
            Side winds and aim: a mark&rsquo;s offset is written down and counts in its distance, and is not
            explained.
          </li>
        </ul>
      </details>
    </div>
  );
}

const signed = (metres: number, system: UnitSystem) =>
  `${metres < 0 ? "−" : "+"}${formatQuantity(Math.abs(metres), "distance", system, { digits: 1 })}`;
