/** What may break: where its pieces go, and each load against what is declared to bear it. */

import type { ReactNode } from "react";
import type { Fault, HazardSheet, Loads, Peak, Reserve } from "@/lib/throw";
import { type Dimension, downToTwoDigits, formatQuantity, type UnitSystem } from "@/lib/units";
import { SafetySign } from "../caution";
import { Table } from "../table";
import { Fold } from "./fold";
import { pieceWords } from "./reasons";
import {
  distanceText,
  figureText,
  type Heading,
  instantText,
  loadText,
  lowerFirst,
  slingStiffnessText,
  stationText,
} from "./words";

export function Breaks({
  sheet,
  system,
  part: Part,
}: {
  sheet: HazardSheet;
  system: UnitSystem;
  part: Heading;
}) {
  const { faults, loads } = sheet;
  if (!faults && !loads) {
    return (
      <section>
        <Part>What may break</Part>
        <p>An earlier version computed this sheet, without failures and loads: compute it again.</p>
      </section>
    );
  }
  return (
    <section>
      <Part>What may break</Part>
      {faults && faults.length > 0 ? (
        <Fold title="Failures, and where the pieces go">
          <div className="sheet-faults">
            <FaultTable faults={faults} system={system} />
          </div>
          <Notes items={unique(faults.flatMap(({ notes }) => notes))} run />
        </Fold>
      ) : (
        <p>No failure of this kind of machine is computed: its pieces are not in the zone.</p>
      )}
      {loads ? <LoadTable loads={loads} system={system} /> : null}
    </section>
  );
}

const unique = (items: readonly string[]) => [...new Set(items)];

/** @param props.run one after the other on paper */
export function Notes({ items, run = false }: { items: readonly string[]; run?: boolean }) {
  return items.length === 0 ? null : (
    <ul className={run ? "sheet-tight sheet-run" : "sheet-tight"}>
      {items.map((item) => (
        <li key={item}>{item}</li>
      ))}
    </ul>
  );
}

function FaultTable({ faults, system }: { faults: readonly Fault[]; system: UnitSystem }) {
  const reach = (fault: Fault, way: "forward" | "backward" | "side") => {
    const first = fault.reach[way];
    const rest = Math.max(first, fault.rest[way]);
    if (!(rest > 0)) return "–";
    const [a, b] = [distanceText(first, system), distanceText(rest, system)];
    return a === b ? a : `${a}, ${b}`;
  };
  return (
    <Table
      caption="Failures: from the firing point to the first impact of the farthest piece, then to where it comes to rest; no margin"
      rows={faults}
      rowKey={({ code }) => code}
      columns={[
        { key: "title", head: "What fails", rowHead: true, cell: ({ title }) => title },
        { key: "forward", head: "Ahead", number: true, cell: (fault) => reach(fault, "forward") },
        { key: "backward", head: "Behind", number: true, cell: (fault) => reach(fault, "backward") },
        { key: "side", head: "Aside", number: true, cell: (fault) => reach(fault, "side") },
        { key: "why", head: "What decides it", cell: (fault) => <Why {...{ fault, faults, system }} /> },
      ]}
    />
  );
}

/** The farthest piece, and the numbers of the failure that another one does not tell already. */
function Why({ fault, faults, system }: { fault: Fault; faults: readonly Fault[]; system: UnitSystem }) {
  const farthest = [...fault.pieces].sort((a, b) => b.distance - a.distance)[0];
  const before = faults.slice(0, faults.indexOf(fault));
  const told = (code: string, value: number | null) =>
    before.some(({ figures }) => figures.some((figure) => figure.code === code && figure.value === value));
  const own = fault.figures.filter(({ value }) => value !== null);
  const fresh = own.filter(({ code, value }) => !told(code, value));
  const same = own.length - fresh.length;
  return (
    <>
      {fault.allRound ? "Any way. " : ""}
      {farthest ? `${pieceWords(farthest, system)}. ` : ""}
      {figuresText(fresh, system)}
      {same > 0 && fresh.length === 0 ? "The same numbers as above." : ""}
    </>
  );
}

/** "Least gap: 0.5 m at 0.818 s": the instant of a figure, told by its code, follows it. */
function figuresText(figures: Fault["figures"], system: UnitSystem): string {
  const text = (of: Fault["figures"][number]) => figureText(of.value as number, of.unit, system);
  const instantOf = (code: string) => figures.find((each) => each.code === `${code}-at`);
  return figures
    .filter(({ code }) => !figures.some((each) => `${each.code}-at` === code))
    .map((each) => {
      const instant = instantOf(each.code);
      return `${each.label}: ${text(each)}${instant ? ` at ${text(instant)}` : ""}`;
    })
    .join("; ");
}

interface LoadRow {
  part: string;
  load: string;
  when: string;
  reserve: Reserve | null;
  dimension: Dimension;
  verdict?: ReactNode;
}

function LoadTable({ loads, system }: { loads: Loads; system: UnitSystem }) {
  const rows = loadRows(loads, system);
  const notes = unique([
    ...rows.flatMap(({ part, reserve }) =>
      reserve?.strength == null ? [] : [`${part.replace(/,.*/, "")}: ${lowerFirst(reserve.explanation)}`],
    ),
    ...(loads.stability ? [] : [loads.stabilityNote]),
  ]);
  const missing = unique(
    rows.flatMap(({ reserve }) => (reserve && reserve.strength === null ? [reserve.explanation] : [])),
  );
  const envelope = loads.arm?.envelope ?? [];
  return (
    <Fold title="Loads against what bears them">
      {rows.length > 0 ? (
        <Table
          caption="Loads, the largest of each, against the declared strength"
          rows={rows}
          rowKey={({ part }) => part}
          columns={[
            { key: "part", head: "What bears it", rowHead: true, cell: ({ part }) => part },
            { key: "load", head: "Largest load", number: true, cell: ({ load }) => load },
            { key: "when", head: "When", cell: ({ when }) => when },
            {
              key: "strength",
              head: "Bears",
              number: true,
              cell: ({ reserve, dimension }) =>
                reserve?.strength == null ? "–" : loadText(reserve.strength, dimension, system),
            },
            {
              key: "reserve",
              head: "Reserve",
              number: true,
              cell: ({ reserve }) => (reserve?.reserve == null ? "–" : factor(reserve.reserve)),
            },
            {
              key: "verdict",
              head: "Verdict",
              cell: ({ reserve, verdict }) => verdict ?? (reserve ? <Verdict {...reserve} /> : "–"),
            },
          ]}
        />
      ) : (
        <p>No load of this kind of machine is computed.</p>
      )}
      {missing.length > 0 ? <p className="sheet-small">To learn the reserves: {missing.join(" ")}</p> : null}
      <Notes items={notes} run />
      {loads.sling?.jerks.length ? (
        <p className="sheet-small no-print">{slingStiffnessText(loads.sling, system)}</p>
      ) : null}
      {envelope.length > 0 ? (
        <Fold title="Bending along the arm" screenOnly>
          <Table
            caption="Bending moment along the arm, from the pivot towards the tip"
            rows={envelope}
            rowKey={({ station }) => station}
            columns={[
              {
                key: "station",
                head: "Station",
                rowHead: true,
                cell: ({ station }) => formatQuantity(station, "distance", system, { digits: 2 }),
              },
              {
                key: "throw",
                head: "Throw and after",
                number: true,
                cell: ({ moment }) => loadText(moment, "torque", system),
              },
              {
                key: "hang-up",
                head: "Hang-up",
                number: true,
                cell: ({ hangUpMoment }) => loadText(hangUpMoment, "torque", system),
              },
              {
                key: "stress",
                head: "Stress",
                number: true,
                cell: ({ stress }) => (stress === null ? "–" : loadText(stress, "stress", system)),
              },
            ]}
          />
        </Fold>
      ) : null}
    </Fold>
  );
}

export const factor = (reserve: number) =>
  reserve >= 100 ? "over 100" : downToTwoDigits(reserve).toPrecision(2);

/** Danger by sign and word; what meets its factor is said plainly, never praised. */
export function Verdict({ verdict, designFactor }: Reserve) {
  if (verdict === "unknown") return "no strength declared";
  if (verdict === "meets-design-factor") return `meets the usual factor of ${designFactor}`;
  const breaks = verdict === "breaks";
  return (
    <strong className={breaks ? "sheet-verdict sheet-breaks" : "sheet-verdict"}>
      <SafetySign kind={breaks ? "prohibition" : "warning"} size={18} />
      {breaks ? "Breaks: do not throw" : `Below the usual factor of ${designFactor}`}
    </strong>
  );
}

function loadRows(loads: Loads, system: UnitSystem): LoadRow[] {
  const rows: LoadRow[] = [];
  const { sling, arm, pivot, hanger, stability, spin, draw, chamber } = loads;
  const at = (peak: { time: number } | null | undefined) => (peak ? `at ${instantText(peak.time)}` : "");
  const put = (part: string, value: number, dimension: Dimension, when: string, reserve: Reserve | null) =>
    rows.push({ part, load: loadText(value, dimension, system), when, reserve, dimension });
  if (sling) {
    const jerk = (hangUp: boolean) =>
      sling.jerks.filter((each) => each.hangUp === hangUp).sort((a, b) => b.peakForce - a.peakForce)[0];
    const when = (load: number, peak: Peak | null, hangUp: boolean) => {
      const hard = jerk(hangUp);
      return hard && hard.peakForce >= load * 0.999
        ? `the jerk as the slack sling comes taut, at ${instantText(hard.time)}`
        : at(peak);
    };
    const { tension, reserve, hangUpReserve } = sling;
    put("Sling, throw", reserve.load, "force", when(reserve.load, tension.throw, false), reserve);
    if (hangUpReserve) {
      const { load } = hangUpReserve;
      put("Sling, hang-up", load, "force", when(load, tension.hangUp, true), hangUpReserve);
    }
  }
  if (arm) {
    const dimension = arm.envelope.some(({ stress }) => stress !== null) ? "stress" : "torque";
    const place = (peak: { station: number; time: number } | null) =>
      peak ? `${stationText(peak.station, system)}, ${at(peak)}` : "";
    const { throw: thrown, after, hangUp } = arm.moment;
    const most = after && (!thrown || after.value > thrown.value) ? after : thrown;
    put("Arm in bending, throw", arm.reserve.load, dimension, place(most), arm.reserve);
    if (arm.hangUpReserve) {
      put(
        "Arm in bending, hang-up",
        arm.hangUpReserve.load,
        dimension,
        `${place(hangUp)}, jerks included`,
        arm.hangUpReserve,
      );
    }
  }
  for (const [part, borne] of [
    ["Pivot", pivot],
    ["Hanger", hanger],
  ] as const) {
    if (borne) put(part, borne.reserve.load, "force", life(borne.force), borne.reserve);
  }
  if (chamber) {
    put("Chamber", chamber.reserve.load, "gauge", "at the trigger", chamber.reserve);
    put("Cap", chamber.capForce, "force", "at the trigger", null);
  }
  if (spin) {
    put("Hub, by the projectile", spin.projectilePull, "force", "at full spin", null);
    if (spin.armPull !== null) put("Hub, by the arm", spin.armPull, "force", "at full spin", null);
  }
  if (draw) {
    put("Limbs and cord, drawn", draw.peakForce, "force", "at full draw", null);
    put("Stored energy", draw.storedEnergy, "energy", "at full draw", null);
  }
  if (stability) {
    const { front, rear, time, friction, tips, slides } = stability;
    rows.push({
      part: "Frame on the ground",
      load: friction === null ? "lifts" : `friction ${friction.toPrecision(2)} needed`,
      when: `${loadText(Math.min(front, rear), "torque", system)} hold it down, ${at({ time })}`,
      reserve: null,
      dimension: "torque",
      verdict:
        tips || slides ? (
          <strong className="sheet-verdict">
            <SafetySign kind="warning" size={18} />
            {[tips ? "Tips" : "", slides ? "Slides" : ""].filter(Boolean).join(", ")}
          </strong>
        ) : slides === null ? (
          "does not tip; no friction declared"
        ) : (
          "neither tips nor slides by these numbers"
        ),
    });
  }
  return rows;
}

/** In which of its three lives a part is loaded most, and when. */
function life(force: { throw: Peak | null; after: Peak | null; hangUp: Peak | null }): string {
  const names = { throw: "in the throw", after: "swinging on unloaded", hangUp: "in a hang-up" } as const;
  let most: { name: string; peak: Peak } | null = null;
  for (const key of ["throw", "after", "hangUp"] as const) {
    const peak = force[key];
    if (peak && (!most || peak.value > most.peak.value)) most = { name: names[key], peak };
  }
  return most ? `${most.name}, at ${instantText(most.peak.time)}` : "";
}
