import { Button } from "@/app/_ui/button";
import { Caution } from "@/app/_ui/caution";
import { SelectField, TextField } from "@/app/_ui/field";
import { Notice } from "@/app/_ui/notice";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { reading, titled } from "@/app/_ui/reading";
import { MissingZones } from "@/app/_ui/zones/missing-zones";
import { zoneless } from "@/app/_ui/zones/zoneless";
import { rangePlanOf } from "@/lib/contest";
import { BarrierTable } from "../barrier-table";
import { askedOf, type Query } from "./asked";
import { MARGIN, PAPER_NAMES, PAPERS, scaleWords, sheetLayout } from "./plan-scale";
import { PlanSheet } from "./plan-sheet";
import {
  ConflictWords,
  DistanceTable,
  FeatureTable,
  PointTable,
  PolicyWords,
  StandClearTable,
} from "./plan-tables";
import { groundOf, planView } from "./plan-view";
import styles from "./range-plan.module.css";

export const generateMetadata = titled("Range plan to scale");

/** Open to all, like the map. The choices are in the address, so a plan can be linked and printed without a script. */
export default async function RangePlanPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Query>;
}) {
  const { contest: slug } = await params;
  const plan = await reading((db) => rangePlanOf(db, slug));
  const system = await readerUnits(plan.contest.units);
  const asked = askedOf(await searchParams, plan, system);
  const layout = sheetLayout(asked.paper, asked.turn);
  const ground = groundOf(plan, asked.machines);
  const view = ground && planView(plan, ground, layout.map, asked.scale, system);
  const missing = zoneless(asked.machines);
  const paper = `${PAPERS[asked.paper].title}, ${asked.turn}`;
  return (
    <>
      <style>{`@media print {
        @page { size: ${layout.paper.width}mm ${layout.paper.height}mm; margin: ${MARGIN}mm; }
        .masthead { display: none; }
      }`}</style>
      <div className="no-print">
        <h1>Range plan to scale</h1>
        <form method="get" aria-label="How the plan is drawn">
          <div className={styles.choices}>
            <SelectField
              id="plan-paper"
              name="paper"
              label="Paper"
              defaultValue={asked.paper}
              choices={PAPER_NAMES.map((name) => ({ value: name, label: PAPERS[name].title }))}
            />
            <SelectField
              id="plan-turn"
              name="turn"
              label="Turned"
              defaultValue={asked.turn}
              choices={[
                { value: "portrait", label: "Portrait" },
                { value: "landscape", label: "Landscape" },
              ]}
            />
            <SelectField
              id="plan-zones"
              name="zones"
              label="Zones"
              defaultValue={asked.zones}
              choices={[
                { value: "all", label: `Every machine (${plan.machines.length})` },
                { value: "together", label: "All as one outline" },
                ...plan.machines.map(({ id, name }) => ({ value: id, label: name })),
                { value: "none", label: "None: the site alone" },
              ]}
            />
            <TextField
              id="plan-scale"
              name="scale"
              label="Scale"
              optional
              placeholder={view ? scaleWords(view.scale, system) : ""}
              defaultValue={asked.scaleText}
              help={
                system === "us"
                  ? "Such as 1 in = 40 ft. Empty: the largest that fits."
                  : "Such as 1:1250. Empty: the largest that fits."
              }
              error={
                asked.scaleText !== "" && asked.scale === null
                  ? "Scale: give it as 1:1250 or as 1 in = 40 ft, from 1:50 to 1:200000."
                  : null
              }
            />
          </div>
          <MissingZones machines={missing} what="This plan" renew />
          <p className="button-row">
            <Button type="submit">Draw it so</Button>
            <PrintButton>Print on {paper}</PrintButton>
          </p>
        </form>
        <p>Print at 100 %, not fitted to the page: then the scale bar measures what it says.</p>
        {view && !view.whole && (
          <Notice title={`Not all of the range is on this sheet at ${scaleWords(view.scale, system)}`}>
            <p>Choose larger paper, or leave the scale empty.</p>
          </Notice>
        )}
      </div>
      {view ? (
        <PlanSheet
          plan={plan}
          machines={asked.machines}
          together={asked.zones === "together"}
          view={view}
          layout={layout}
          system={system}
          paper={paper}
        />
      ) : (
        <p>Nothing is laid out yet, so there is nothing to draw.</p>
      )}
      <div className={styles.words}>
        <h2>Keep-out distances from the firing point, its accuracy included, rounded up</h2>
        <DistanceTable machines={asked.machines} firingPoints={plan.firingPoints} system={system} />
        {plan.unplaced.length > 0 && (
          <p>
            Without a firing point, and so without a zone here:{" "}
            {plan.unplaced.map(({ name, entrantName }) => `${name} (${entrantName})`).join(", ")}.
          </p>
        )}
        <Caution title="failures may exceed every zone">
          <p>{plan.caution}</p>
        </Caution>
        <h2>What the zones touch</h2>
        <ConflictWords machines={asked.machines} system={system} />
        <h2>Who stands clear when each machine fires</h2>
        <StandClearTable machines={asked.machines} system={system} />
        <h2>Policy and wind</h2>
        <PolicyWords plan={plan} system={system} />
        <h2>Site features</h2>
        <FeatureTable plan={plan} system={system} />
        {plan.barriers && plan.barriers.length > 0 && (
          <BarrierTable barriers={plan.barriers} system={system} />
        )}
        <h2>Firing points and control points</h2>
        <PointTable plan={plan} />
      </div>
    </>
  );
}
