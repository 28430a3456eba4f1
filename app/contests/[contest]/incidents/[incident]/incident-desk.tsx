"use client";
/** One incident: where its pieces lie, what was foreseen, what the model says, who else is concerned, what was written. */
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { LocalTime } from "@/app/_ui/local-time";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { bearingText } from "@/app/_ui/words";
import type { Site } from "@/app/_ui/zones/scene-of";
import type { IncidentInfo } from "@/lib/api/contracts";
import { PieceForm } from "../piece-form";
import { type Pegs, standThen } from "../stand";
import { HURT_WORDS, PART_WORDS } from "../words";
import { IncidentMap } from "./incident-map";
import { NeededZone } from "./needed-zone";
import { PieceTable } from "./piece-table";
import { ReplayPanel } from "./replay-panel";
import { ReportForm } from "./report-form";
import { WordsPanel } from "./words-panel";

export function IncidentDesk({
  slug,
  incident,
  site,
  pegs,
  mayErase,
}: {
  slug: string;
  incident: IncidentInfo;
  site: Site;
  pegs: Pegs;
  mayErase: boolean;
}) {
  const system = useUnits();
  const [correcting, setCorrecting] = useState<string | null>(null);
  const { part, hurt, observedAt, witness, by, outside, pieces, stood, reports } = incident;
  const stand = standThen(incident);
  return (
    <>
      {outside > 0 && (
        <Notice kind="problem" title={`${outside} of ${pieces} count as OUTSIDE the zone`}>
          <p>
            The zone did not hold what it had to hold, or that cannot be told. The range was put on hold,
            which only the safety officer lifts.
          </p>
        </Notice>
      )}
      <p>
        {PART_WORDS[part]}. {HURT_WORDS[hurt]}. Seen <LocalTime iso={observedAt} day />
        {witness && `, by ${witness}`}; entered by {by}.
      </p>
      {stood ? (
        <p>
          It stood at firing point {stood.firingPointNumber} on bearing {bearingText(stood.bearing)}, revision{" "}
          {stood.revision}.{" "}
          {stood.exclusion
            ? `Its zone then: ${keepOffBoth(stood.exclusion.forward, system)} ahead, ${keepOffBoth(stood.exclusion.backward, system)} behind, ${keepOffBoth(stood.exclusion.side, system)} beside, with a margin of ${stood.margin}; hazard sheet ${stood.inputHash?.slice(0, 16)}.`
            : "Nothing had been computed for it: every place counts as outside."}
        </p>
      ) : (
        <p>
          <strong>It stood at no firing point then, as far as this program knows.</strong> Every place counts
          as outside.
        </p>
      )}
      <h2>Where pieces came down</h2>
      {stood && (
        <IncidentMap slug={slug} incident={incident} site={site} system={system} describedBy="piece-table" />
      )}
      <PieceTable
        id="piece-table"
        slug={slug}
        incident={incident}
        system={system}
        onCorrect={stand ? setCorrecting : null}
      />
      {stand && (
        <details open={correcting !== null || pieces === 0} key={correcting ?? "new"}>
          <summary>{correcting ? "Correct this place" : "Enter where something came down"}</summary>
          <PieceForm
            slug={slug}
            incidentId={incident.id}
            stand={stand}
            pegs={pegs}
            replaces={correcting}
            onDone={() => setCorrecting(null)}
          />
          {correcting && <Button onClick={() => setCorrecting(null)}>Leave it as it is</Button>}
        </details>
      )}
      <NeededZone slug={slug} incident={incident} system={system} />
      {pieces > 0 && stood?.sheetId && <ReplayPanel slug={slug} incident={incident} system={system} />}
      <WordsPanel slug={slug} incident={incident} mayErase={mayErase} />
      <h2>The report</h2>
      <ReportForm slug={slug} incident={incident} />
      {reports.length > 1 && (
        <ul>
          {reports.slice(1).map((report) => (
            <li key={report.sequence}>
              Before: {PART_WORDS[report.part]}. {HURT_WORDS[report.hurt]}. Seen{" "}
              <LocalTime iso={report.observedAt} day />; entered by {report.by}, scorebook entry{" "}
              {report.sequence}.
            </li>
          ))}
        </ul>
      )}
      <Caution title="the cause comes before the next throw">
        <p>{incident.caution}</p>
      </Caution>
    </>
  );
}
