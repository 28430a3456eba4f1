/** The sheet: the drawing with its panel, at the size of its paper. */
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
        <PlanDrawing plan={plan} machines={machines} together={together} view={view} system={system} />
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
