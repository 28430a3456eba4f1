"use client";
/** One machine tried on the map, what would cure it, and a plan for all of them. Nothing is saved until it is said. */
import { useRouter } from "next/navigation";
import { useCallback, useDeferredValue, useMemo, useState } from "react";
import { Caution } from "@/app/_ui/caution";
import { SelectField } from "@/app/_ui/field";
import { useLive } from "@/app/_ui/live/use-live";
import { Notice } from "@/app/_ui/notice";
import { useUnits } from "@/app/_ui/units";
import { sceneOf } from "@/app/_ui/zones/scene-of";
import type { ContestOverview, Placing } from "@/lib/api/contracts";
import { SheetState } from "../map/sheet-state";
import { ClearBearingsTable, useClearBearings } from "./clear-bearings";
import { CuresPanel, type Looked } from "./cures-panel";
import { FitPanel } from "./fit-panel";
import styles from "./placing.module.css";
import { PlacingMap, type Shown } from "./placing-map";
import { type Planned, PlanPanel } from "./plan-panel";
import { TouchList } from "./touch-list";
import { droppedAt, siteOf, type Trial, touched, trialAt, zoneOf } from "./trial";
import { TryForm } from "./try-form";

const CHANGES = new Set(["layout", "machine", "conditions", "sheet", "entry"]);

export interface DeskProps {
  slug: string;
  site: Pick<ContestOverview, "longitude" | "features" | "firingPoints">;
  placing: Placing;
  /** Of the newest scorebook entry that these show. */
  sequence: number;
  organiser: boolean;
  /** The machine that the address asks for. */
  first: string | null;
}

export function PlacingDesk({ slug, site, placing, sequence, organiser, first }: DeskProps) {
  const system = useUnits();
  const router = useRouter();
  const { machines } = placing;
  const [machineId, setMachineId] = useState(first ?? machines[0]?.machineId ?? "");
  const [trial, setTrial] = useState<Trial | null>(null);
  const [looked, setLooked] = useState<Looked>(null);
  const [planned, setPlanned] = useState<Planned>(null);
  useLive(`/api/v1/contests/${slug}/live`, sequence, (change, missed) => {
    if (missed || CHANGES.has(change.kind)) router.refresh();
  });

  const machine = machines.find((each) => each.machineId === machineId) ?? machines[0] ?? null;
  const record = useMemo(() => {
    const point = site.firingPoints.find(({ id }) => id === machine?.firingPointId);
    return point && machine?.bearing != null ? trialAt(point, machine.bearing) : null;
  }, [site.firingPoints, machine]);
  const now = trial ?? record;
  const saved = trial === null || same(trial, record);
  const change = useCallback((next: Trial | null) => {
    setTrial(next);
    setLooked(null);
  }, []);
  const choose = (id: string) => {
    setMachineId(id);
    change(null);
  };

  const [middle] = site.firingPoints;
  const ground = useMemo(
    () => (middle ? siteOf(site.features, placing.agreements, middle) : null),
    [site.features, placing.agreements, middle],
  );
  const arcs = useClearBearings(slug, machine?.reach ? machine.machineId : null, now?.pointId ?? null);
  // On falling ground a sheet's reach holds for its own bearing and place alone.
  const turned = arcs.state === "answered" ? arcs.answer.reach : null;
  const own = machine?.reach ?? null;
  const reach = useMemo(
    () => own && (saved || !turned ? own : own.map((metres, i) => Math.max(metres, turned[i] as number))),
    [own, turned, saved],
  );
  const late = useDeferredValue(now);
  const conflicts = useMemo(
    () => (ground && late && reach ? touched(ground, late, reach) : null),
    [ground, late, reach],
  );
  const scene = useMemo(() => sceneOf(site), [site]);
  const others = useMemo(
    () =>
      machines.flatMap(({ machineId: id, reach: own, firingPointId, bearing }) => {
        const to =
          planned?.get(id) ?? (firingPointId && bearing !== null ? { firingPointId, bearing } : null);
        const point = site.firingPoints.find((each) => each.id === to?.firingPointId);
        if (!own || !to || !point || (id === machine?.machineId && !planned)) return [];
        return [zoneOf(point, to.bearing, own)];
      }),
    [machines, site.firingPoints, planned, machine],
  );
  const shown = useMemo<Shown | null>(
    () =>
      now && reach && machine
        ? { stand: now.stand, bearing: now.bearing, reach, name: machine.machineName, saved }
        : null,
    [now, reach, machine, saved],
  );

  if (!machine || !middle)
    return (
      <p>
        {middle
          ? "No machine is entered yet."
          : "No firing point is laid out yet. The organiser lays them out on the site page."}
      </p>
    );
  return (
    <>
      <div className={styles.desk}>
        <div>
          <SelectField
            id="machine"
            label="Machine"
            value={machine.machineId}
            onChange={(event) => choose(event.target.value)}
            choices={machines.map((each) => ({
              value: each.machineId,
              label: `${each.machineName} (${each.entrantNumber} ${each.entrantName})`,
            }))}
          />
          <PlacingMap
            scene={scene}
            others={others}
            moved={looked ?? NOTHING}
            shown={shown}
            ring={arcs.state === "answered" ? arcs.answer : null}
            onDrop={(at) => now && change(droppedAt(at, now, site.firingPoints))}
            system={system}
            describedBy="clear-bearings"
          />
          <p className={styles.legend}>
            Drag the ring to move the machine; near a firing point it stands on it. Thick on the ring:
            bearings on which its zone touches nothing it must not. Dashed red: the others. Dotted outlines:{" "}
            {planned ? "the plan" : "the other machines"}.
          </p>
        </div>
        <div>
          <SheetState state={machine.state} reason={machine.reason} />
          <TryForm
            key={machine.machineId}
            slug={slug}
            machine={machine}
            points={site.firingPoints}
            trial={now}
            saved={saved}
            onTry={change}
          />
          {conflicts && (
            <TouchList conflicts={conflicts} features={site.features} saved={saved} system={system} />
          )}
        </div>
      </div>
      <Caution title="a place that touches nothing is not a place without danger">
        <p>
          What is drawn here covers what is on the map, what the teams declared and the policy. Failures may
          go farther than any zone. The safety officer and local codes decide who may stand where.
        </p>
      </Caution>
      <h2 id="clear-bearings">Clear bearings</h2>
      <ClearBearingsTable arcs={arcs} bearing={now?.bearing ?? null} />
      <CuresPanel
        key={`cures ${machine.machineId} ${machine.firingPointId} ${machine.bearing}`}
        slug={slug}
        machine={machine}
        points={site.firingPoints}
        record={record}
        organiser={organiser}
        onTry={change}
        onLook={setLooked}
      />
      <FitPanel
        key={`fit ${machine.machineId} ${now?.pointId} ${now?.bearing}`}
        slug={slug}
        machine={machine}
        trial={now}
        saved={saved}
      />
      <PlanPanel
        slug={slug}
        machines={machines}
        points={site.firingPoints}
        onPlan={setPlanned}
        onShow={choose}
      />
      {!saved && (
        <div aria-live="polite">
          <Notice title="Not saved">
            <p>
              {machine.machineName} is tried elsewhere on this page. On the record it stands where it stood.
            </p>
          </Notice>
        </div>
      )}
    </>
  );
}

const NOTHING: [] = [];

const same = (a: Trial, b: Trial | null) =>
  b !== null && a.pointId !== null && a.pointId === b.pointId && a.bearing === b.bearing;
