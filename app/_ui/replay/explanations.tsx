"use client";
/** What the model says: the verdict, the drawing, and a table that says the same. */
import { angleText, distanceText, heightText, inWords, speedText } from "@/app/_ui/hazard-sheet/words";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Explanation, type Replay, sentenceOf } from "@/lib/throw";
import { PlanView } from "./plan-view";
import { cornerText, directionText } from "./words";

export interface Answered {
  replay: Replay;
  /** Reach by azimuth of the official sheet; null where there is none. */
  reach: readonly number[] | null;
  kind: string;
}

export function Explanations({ answered, system }: { answered: Answered; system: UnitSystem }) {
  const { replay, reach, kind } = answered;
  const { target, explanations, verdict, hold, worst } = replay;
  const words = { distance: (metres: number) => distanceText(metres, system) };
  const said = (each: Explanation) => inWords(sentenceOf(each, words), kind, system);
  const dwarfed = small(answered);
  const fits = explanations.filter((each) => each.fits);
  return (
    <>
      <Notice
        kind={hold ? "problem" : "note"}
        title={
          verdict === "unexplained"
            ? "Nothing explains it: hold the range"
            : hold
              ? "Hold the range"
              : "A throw as meant may land there"
        }
      >
        <p>{replay.text}</p>
      </Notice>
      <p>
        Found {distanceText(target.distance, system)} from the firing point, {directionText(target.direction)}
        , within {distanceText(target.uncertainty, system)}.
        {worst
          ? ` The worst first impacts are ${distanceText(worst.forward, system)} ahead and ${distanceText(worst.backward, system)} behind.`
          : ""}
      </p>
      {fits.length > 0 ? (
        <>
          <h3>What may have happened, least needed first</h3>
          <ol className="replay-list">
            {fits.map((each, index) => (
              <li key={`${index}-${each.text}`}>{said(each)}.</li>
            ))}
          </ol>
        </>
      ) : null}
      <h3>From above</h3>
      {dwarfed ? <PlanView replay={replay} reach={null} system={system} /> : null}
      <PlanView replay={replay} reach={reach} dwarfed={dwarfed} system={system} />
      <Table
        caption="Explanations"
        rows={explanations}
        rowKey={(_, index) => index}
        empty="No flight comes near it."
        columns={[
          { key: "n", head: "No.", rowHead: true, number: true, cell: (_, index) => index + 1 },
          {
            key: "text",
            head: "What happened then",
            cell: (each) => <span className="replay-said">{said(each)}</span>,
          },
          { key: "fits", head: "Fits", cell: (each) => (each.fits ? "yes" : "no") },
          { key: "miss", head: "Miss", number: true, cell: (each) => heightText(each.miss, system) },
          {
            key: "time",
            head: "Came free",
            number: true,
            cell: (each) => (each.time === null ? "–" : `${each.time.toFixed(2)} s`),
          },
          { key: "speed", head: "Speed", number: true, cell: (each) => speedText(each.speed, system) },
          { key: "angle", head: "Launch angle", number: true, cell: (each) => angleText(each.angle) },
          { key: "turn", head: "Turned", number: true, cell: (each) => turnText(each.turn) },
          {
            key: "impact",
            head: "First impact, ahead and to the right",
            number: true,
            cell: ({ impact }) =>
              `${distanceText(impact.downrange, system)}, ${distanceText(impact.aside, system)}`,
          },
          {
            key: "corner",
            head: "Parameters",
            cell: (each) => <span className="replay-said">{cornerText(each, kind, system)}</span>,
          },
        ]}
      />
      <ul>
        {replay.notes.map((note) => (
          <li key={note}>{note}</li>
        ))}
      </ul>
    </>
  );
}

/** Whether everything lies so near that the zone would dwarf it: then it is drawn by itself too. */
function small({ replay, reach }: Answered): boolean {
  const ends = replay.explanations.map(({ impact, rest }) => rest ?? impact);
  const farthest = Math.max(
    ...[replay.target, ...ends].map((each) => Math.hypot(each.downrange, each.aside)),
  );
  return reach !== null && farthest < 0.4 * Math.max(...reach);
}

const turnText = (degrees: number) =>
  Math.abs(degrees) < 0.5 ? "0°" : `${angleText(Math.abs(degrees))} ${degrees < 0 ? "left" : "right"}`;
