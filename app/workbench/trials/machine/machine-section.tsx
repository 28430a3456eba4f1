"use client";
/** What the throws say of the machine: its efficiency, its scatter, and each mark against the model. */
import Link from "next/link";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { type trials, tuning } from "@/lib/throw";
import { formatQuantity, formatUncertain, type UnitSystem } from "@/lib/units";
import { answerTo } from "../log/history";
import { type Log, requestOf, type Throw } from "../log/log";
import { markText, settingText, whenText } from "../log/words";
import { offsetText } from "./offset-words";

type Machine = trials.CalibratedMachine;

type Verdict = Machine["calibration"]["marks"][number]["verdict"];

const VERDICTS: Record<Verdict, string> = {
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
  provisional,
  system,
}: {
  machine: Machine;
  /** Those it was made of, in the same order. */
  throws: readonly Throw[];
  log: Log;
  setting: tuning.Knob;
  /** The worst throws are those of the declared numbers alone, and the scale is not looked at yet. */
  provisional: boolean;
  system: UnitSystem;
}) {
  const { calibration, uncertainty, coverage, fitted, worst } = machine;
  const { efficiency, scatter, degreesOfFreedom, marks, notes, alarm, hold } = calibration;
  const taken = marks.filter(({ used }) => used).length;
  const remarked = marks.flatMap(({ remark }, index) => (remark ? [{ remark, index }] : []));
  const metres = (value: number | null) => (value === null ? "–" : distanceText(value, system));
  const said = notes.slice((hold ? 1 : 0) + (alarm ? 1 : 0));
  return (
    <div aria-busy={provisional}>
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
            : the share of the model&rsquo;s energy at release that the projectile really gets, one for all
            settings together.{" "}
            {uncertainty === null ? "" : `By ${taken} throws it lies within the ± with 95 chances in 100. `}
            {scatter === null
              ? "One throw does not tell how much throws differ: a fifth beyond it the second is an alarm."
              : `Two of three throws land within ${metres(scatter)} of what it says.`}
          </p>
          {coverage !== null && coverage > 2.5 ? (
            <p>
              {taken} throws tell little of how much throws differ, so the ± is wide: more throws make it
              narrower.
            </p>
          ) : null}
          {coverage !== null && scatter !== null ? (
            <details>
              <summary>How the ± is reckoned</summary>
              <p>
                Least squares over all marks. Scatter of one throw about the fit: {metres(scatter)} (one
                standard deviation, {degreesOfFreedom} {degreesOfFreedom === 1 ? "degree" : "degrees"} of
                freedom). The ± of the efficiency is its standard uncertainty times k = {coverage.toFixed(1)},
                Student&rsquo;s t for 95 % at that many degrees of freedom: 2 for many throws, more for few.
              </p>
            </details>
          ) : null}
        </>
      )}
      {taken < marks.length ? (
        <p>
          It is taken from {taken} of {marks.length} throws: what stands below as alarm, far short or not to
          be computed is left out.
        </p>
      ) : null}
      {said.length > 0 ? (
        <Notice title="What this says">
          {said.map((note) => (
            <p key={note}>{note}</p>
          ))}
        </Notice>
      ) : null}
      {remarked.length > 0 ? (
        <Notice kind="problem" title="Throws to look at">
          {remarked.map(({ remark, index }) => (
            <p key={index}>
              {nameOf(throws[index], system)}: {remark}
            </p>
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
          { key: "upper", head: "Alarm beyond", number: true, cell: ({ upper99 }) => metres(upper99) },
          {
            key: "verdict",
            head: "Verdict",
            cell: ({ verdict }, index) => verdictText(verdict, throws[index]),
          },
        ]}
      />
      <p>
        {provisional
          ? "Worst throws of the declared numbers alone, while those within their tolerances are being worked out: "
          : "Worst throws of the machine as declared: "}
        {metres(worst.forward)} ahead, {metres(worst.backward)} behind. The keep-out zone is larger yet:
        margin, bounce, roll and pieces.
      </p>
      {provisional ? null : <p data-told="offset">{offsetText(machine.offset, setting, system)}</p>}
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
            How the mark was measured: nothing is taken off a mark for its uncertainty, so one that is known
            badly may be an alarm too soon, never too late.
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

function verdictText(verdict: Verdict, made: Throw | undefined): string {
  const rank = verdict === "model-wrong" ? "hold" : verdict === "alarm" ? "alarm" : null;
  return `${VERDICTS[verdict]}${rank && made && answerTo(made, rank) ? " (dealt with)" : ""}`;
}

const nameOf = (made: Throw | undefined, system: UnitSystem) =>
  made ? `${markText(made, system)}, ${whenText(made.at)}` : "";

const signed = (metres: number, system: UnitSystem) =>
  `${metres < 0 ? "−" : "+"}${formatQuantity(Math.abs(metres), "distance", system, { digits: 1 })}`;
