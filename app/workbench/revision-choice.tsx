"use client";
/** Which revision a page is of, where there are several: every page but those that have this choice themselves. */
import { usePathname } from "next/navigation";
import { SelectField } from "@/app/_ui/field";
import { useBench } from "./bench/use-bench";
import styles from "./workbench.module.css";

const WITH_THEIR_OWN = ["/workbench", "/workbench/tuning"];

export function RevisionChoice() {
  const { bench, revision, change } = useBench();
  const path = usePathname();
  if (bench.revisions.length < 2 || WITH_THEIR_OWN.includes(path)) return null;
  return (
    <div className={`${styles.choice} no-print`}>
      <SelectField
        id="page-revision"
        label="Revision"
        value={revision.id}
        onChange={(event) => change({ do: "choose", id: event.target.value })}
        choices={bench.revisions.map(({ id, name }, index) => ({
          value: id,
          label: `${index + 1}. ${name || "without a name"}`,
        }))}
      />
    </div>
  );
}
