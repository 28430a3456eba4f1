"use client";
/** One machine's zone: its distances, what it assumes, and who decides. */
import Link from "next/link";
import { bothUnits } from "@/app/_ui/both-units";
import { Caution } from "@/app/_ui/caution";
import { inWords } from "@/app/_ui/hazard-sheet/words";
import { keepOffBoth } from "@/app/_ui/kept-distance";
import { bearingText } from "@/app/_ui/words";
import { accuracyWords } from "@/app/_ui/zones/zone-distances";
import type { ZoneProperties, Zones } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import { zoneDistances } from "@/lib/zones/zone-distances";
import styles from "./map-page.module.css";
import { SheetState } from "./sheet-state";

export function ZoneCard({
  slug,
  zone,
  policy,
  caution,
  system,
  open,
  mayOpen,
}: {
  slug: string;
  zone: ZoneProperties;
  policy: Zones["policy"];
  caution: string;
  system: UnitSystem;
  /** Alone on the page: everything about it is spread out. */
  open: boolean;
  /** Whether the reader may see the machine's own page. */
  mayOpen: boolean;
}) {
  const distance = (value: number) => bothUnits(value, "distance", system, { digits: 0 });
  const reaches = zone.exclusion && zoneDistances(zone.exclusion, zone.accuracy);
  const accuracy = accuracyWords(zone.accuracy, system);
  const touching = zone.conflicts.filter(({ inConflict }) => inConflict).length;
  return (
    <article className={styles.card} aria-label={`Zone of ${zone.machineName}`}>
      <h3>
        {mayOpen ? (
          <Link href={`/contests/${slug}/machines/${zone.machineId}`} prefetch={false}>
            {zone.machineName}
          </Link>
        ) : (
          zone.machineName
        )}
      </h3>
      <p>
        {zone.entrantNumber} {zone.entrantName}, firing point {zone.firingPointNumber}, bearing{" "}
        {bearingText(zone.bearing)}
      </p>
      <SheetState state={zone.state} reason={zone.reason} />
      {reaches && (
        <>
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
          <p>From the firing point, rounded up.{accuracy && ` ${accuracy}`}</p>
          {zone.apex !== null && zone.top !== null && (
            <p>
              Highest throw computed: {keepOffBoth(zone.apex, system)} above its ground,{" "}
              {keepOffBoth(zone.top, system)} above the ellipsoid.
            </p>
          )}
          {touching > 0 && (
            <p>
              <strong>
                {touching === 1 ? "One protected feature is" : `${touching} protected features are`} touched
                or too near.
              </strong>
            </p>
          )}
          <details open={open}>
            <summary>What this zone assumes</summary>
            {zone.worst && (
              <p>
                Worst throw computed: {distance(zone.worst.forward)} forward, {distance(zone.worst.backward)}{" "}
                backward to the first impact
                {zone.nominal === null ? "" : `; as meant ${distance(zone.nominal)}`}. The zone takes{" "}
                {formatQuantity(policy.margin, "ratio", system)} times that and adds run-out on{" "}
                {policy.ground} ground
                {policy.hangUp
                  ? "; a projectile that hangs up and whirls on is counted."
                  : `. Hang-ups are left out: ${policy.hangUpReason ?? "no reason given"}`}
              </p>
            )}
            {zone.warnings.length > 0 && (
              <ul>
                {zone.warnings.map(({ code, text }) => (
                  <li key={code + text}>{inWords(text, zone.kind ?? "", system)}</li>
                ))}
              </ul>
            )}
            <ul>
              {zone.assumptions.map((line) => (
                <li key={line}>{inWords(line, zone.kind ?? "", system)}</li>
              ))}
            </ul>
            {zone.notModelled.length > 0 && (
              <>
                <p>Not modelled:</p>
                <ul>
                  {zone.notModelled.map((line) => (
                    <li key={line}>{inWords(line, zone.kind ?? "", system)}</li>
                  ))}
                </ul>
              </>
            )}
          </details>
          {open ? (
            <Caution title="failures may exceed this zone">
              <p>{caution}</p>
            </Caution>
          ) : (
            <p>Failures may exceed this zone; the safety officer and local codes decide.</p>
          )}
        </>
      )}
    </article>
  );
}
