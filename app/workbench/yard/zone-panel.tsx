"use client";
/** What the zone on the map says: its distances, what it touches, who stands clear, what it takes for granted. */
import { bothUnits } from "@/app/_ui/both-units";
import { Caution } from "@/app/_ui/caution";
import { inWords } from "@/app/_ui/hazard-sheet/words";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { Notice } from "@/app/_ui/notice";
import { Table } from "@/app/_ui/table";
import { bearingText } from "@/app/_ui/words";
import { ConflictList } from "@/app/_ui/zones/conflict-list";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import { kindTitle } from "@/app/_ui/zones/scene-of";
import { StandClearList } from "@/app/_ui/zones/stand-clear-list";
import { accuracyWords } from "@/app/_ui/zones/zone-distances";
import type { Air, HazardSheet, Policy } from "@/lib/throw";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { isLoosened } from "@/lib/zones/kinds";
import { zoneDistances } from "@/lib/zones/zone-distances";
import { DECLARED_SLOPE } from "./question";
import type { Yard } from "./yard";
import styles from "./yard.module.css";
import type { YardZone } from "./zone";

type Wind = NonNullable<Air["wind"]>;

export function ZonePanel({
  zone,
  yard,
  sheet,
  policy,
  wind,
  sloping,
  looser,
  system,
}: {
  zone: YardZone;
  yard: Yard;
  sheet: HazardSheet;
  policy: Policy;
  wind: Wind | undefined;
  /** The ground slopes by the bench alone. */
  sloping: boolean;
  /** The bench asks for less than the documented defaults. */
  looser: boolean;
  system: UnitSystem;
}) {
  const { properties } = zone;
  const { worst, nominal } = properties;
  const reaches = properties.exclusion && zoneDistances(properties.exclusion, properties.accuracy);
  const accuracy = accuracyWords(properties.accuracy, system);
  const gust = wind?.gust ?? wind?.speed ?? 0;
  const loosened = yard.features
    .map((feature) => ({ ...feature, allowance: null }))
    .filter((feature) => isLoosened(feature));
  const distance = (value: number) => bothUnits(value, "distance", system, { digits: 0 });
  return (
    <>
      <p>
        {properties.machineName}, {properties.entrantName}, on firing point {properties.firingPointNumber},
        bearing {bearingText(properties.bearing)}. The whole hazard sheet, worked out on this device.
      </p>
      {reaches && (
        <dl className={styles.distances}>
          <div>
            <dt>Forward</dt>
            <dd>{keepOffBoth(reaches.forward, system)}</dd>
          </div>
          <div>
            <dt>Backward</dt>
            <dd>{keepOffBoth(reaches.backward, system)}</dd>
          </div>
          <div>
            <dt>Side</dt>
            <dd>{keepOffBoth(reaches.side, system)}</dd>
          </div>
        </dl>
      )}
      {nominal === null && (
        <Notice kind="problem" title="It throws nothing as meant">
          <p>
            {inWords(sheet.nominalReason ?? "", sheet.kind, system)} A machine that cannot throw as meant must
            not fire.
          </p>
        </Notice>
      )}
      <p>From the firing point, rounded up.{accuracy && ` ${accuracy}`}</p>
      <p>
        Margins and angles are the documented defaults, and whatever your bench has stricter. They cannot be
        loosened here: only the safety officer of a contest sets them. No barrier and no agreement counts here
        either.
        {looser && " What your bench has looser is left out."}
      </p>
      {gust > 0 ? (
        <p>
          It holds in gusts up to {bothUnits(gust, "speed", system, { digits: 1 })}, as your bench says: in
          stronger ones nobody fires.
        </p>
      ) : (
        <Notice title="Still air">
          <p>
            Your bench names no wind, so the zone holds in still air alone: any wind carries farther. Give the
            strongest gust in which you would fire on the machine page.
          </p>
        </Notice>
      )}
      {sloping && (
        <Notice title="Sloping ground">
          <p>{DECLARED_SLOPE}</p>
        </Notice>
      )}
      <Caution title="failures may exceed every zone">
        <p>
          Computed from what you declared. Failures, wrong numbers and what was not modelled may go farther
          than any zone drawn here.
        </p>
      </Caution>
      {!yard.features.some(({ kind }) => kind === "boundary") && (
        <Notice title="No boundary">
          <p>Nothing on this map says where your ground ends: a zone that leaves it shows no conflict.</p>
        </Notice>
      )}
      <ConflictList
        zones={[properties]}
        loosened={loosened}
        decides={
          yard.decides ? `Who decides here: ${yard.decides}.` : "Nobody is named yet who decides here."
        }
        system={system}
      />
      <StandClearList zones={[properties]} system={system} />
      <h3>The same in a table</h3>
      <Table
        caption="The zone and what lies around"
        hideCaption
        stacks
        rows={properties.conflicts}
        rowKey={({ featureId }) => featureId}
        empty="Nothing is laid out around it yet."
        columns={[
          { key: "name", head: "Name", rowHead: true, cell: ({ name }) => name },
          { key: "kind", head: "Kind", cell: ({ kind }) => kindTitle(kind) },
          {
            key: "how",
            head: "The zone",
            cell: (found) =>
              found.inConflict || found.touches
                ? conflictWords(found, system)
                : `stays ${formatQuantity(found.distance, "distance", system, { digits: 0 })} away`,
          },
          { key: "rule", head: "Conflict", cell: ({ inConflict }) => (inConflict ? "✕ yes" : "no") },
        ]}
      />
      <details>
        <summary>What this zone assumes</summary>
        {worst && (
          <p>
            Worst throw computed: {distance(worst.forward)} forward, {distance(worst.backward)} backward to
            the first impact{nominal === null ? "" : `; as meant ${distance(nominal)}`}. The zone takes{" "}
            {formatQuantity(policy.margin, "ratio", system)} times that and adds run-out on {policy.ground}{" "}
            ground.
          </p>
        )}
        <ul>
          {properties.assumptions.map((sentence) => (
            <li key={sentence}>{inWords(sentence, sheet.kind, system)}</li>
          ))}
        </ul>
        {properties.warnings.length > 0 && <h3>Warnings</h3>}
        <ul>
          {properties.warnings.map(({ code, text }) => (
            <li key={code}>{inWords(text, sheet.kind, system)}</li>
          ))}
        </ul>
        <h3>Not modelled</h3>
        <ul>
          {properties.notModelled.map((sentence) => (
            <li key={sentence}>{inWords(sentence, sheet.kind, system)}</li>
          ))}
        </ul>
      </details>
    </>
  );
}
