/** The sheet: the drawing with its panel, at the size of its paper. */
import { SafetySign } from "@/app/_ui/caution";
import { namesOf, zoneless } from "@/app/_ui/zones/zoneless";
import type { PlanMachine, RangePlan } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { PlanDrawing } from "./plan-drawing";
import { PlanPanel } from "./plan-panel";
import type { SheetLayout } from "./plan-scale";
import type { PlanView } from "./plan-view";
import styles from "./range-plan.module.css";

export function PlanSheet({
  plan,
  machines,
  together = false,
  view,
  layout,
  system,
  paper,
}: {
  plan: RangePlan;
  machines: readonly PlanMachine[];
  /** All zones as one outline, in place of each machine's own. */
  together?: boolean;
  view: PlanView;
  layout: SheetLayout;
  system: UnitSystem;
  paper: string;
}) {
  const missing = zoneless(machines);
  const lying = layout.sheet.width > layout.sheet.height;
  const sizes = {
    "--sheet-wide": layout.sheet.width,
    "--sheet-high": layout.sheet.height,
    "--panel-wide": layout.panel.width,
    "--panel-high": layout.panel.height,
  } as React.CSSProperties;
  return (
    <div className={styles.frame} role="region" aria-label="Range plan to scale" tabIndex={0}>
      <div className={`${styles.sheet} ${lying ? styles.landscape : styles.portrait}`} style={sizes}>
        <div className={styles.map}>
          <PlanDrawing plan={plan} machines={machines} together={together} view={view} system={system} />
          {missing.length > 0 && (
            <div className={`${styles.warning} ${styles.missing}`}>
              <SafetySign kind="warning" />
              <span>
                <strong>Warning: no zone is drawn for {namesOf(missing)}.</strong>{" "}
                {missing.map(({ machineName, reason }) => `${machineName}: ${reason}`).join(" ")} This plan is
                not whole: it says nothing of what {missing.length === 1 ? "it" : "they"} could reach.
              </span>
            </div>
          )}
        </div>
        <PlanPanel
          plan={plan}
          machines={machines}
          together={together}
          view={view}
          system={system}
          paper={paper}
        />
      </div>
    </div>
  );
}
