"use client";
/** The loads card: a panel a part, for the screen and for one page of paper. */
import { Caution } from "@/app/_ui/caution";
import { inWords, slingStiffnessText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Breakage, HazardRequest, Help, PartLoad } from "@/lib/throw";
import { CheckedBy } from "../checked-by";
import { PartPanel } from "./part-panel";
import styles from "./strength.module.css";
import { WholeMachine } from "./whole-machine";

/** The rows of each part, in the order of the card. */
const byPart = (parts: readonly PartLoad[]): PartLoad[][] =>
  [...new Set(parts.map(({ part }) => part))].map((name) => parts.filter(({ part }) => part === name));

const WITHOUT_AN_ARM = [
  "The declared numbers, without their tolerances: whatever drives it harder loads more.",
  "Age, wear, joints, bolt holes, welds and fatigue are not in these numbers.",
];
const OWN_ASSUMPTIONS = [
  "The declared numbers, without their tolerances: a heavier counterweight or a tighter pin loads more.",
  "Dry fire: nothing in the sling from the trigger on; torn sling: the instant that sends most to the stop; both without friction.",
  "What would help was tried with these same numbers; what a stronger part weighs more is left out.",
  "Age, wear, joints, bolt holes, welds and fatigue are not in these numbers.",
];

export function LoadsCard({
  title,
  found,
  request,
  help,
  seeking,
  stale,
  system,
}: {
  title: string;
  found: Breakage;
  request: HazardRequest;
  help: readonly Help[];
  seeking: boolean;
  stale: boolean;
  system: UnitSystem;
}) {
  const { kind } = request.machine;
  const assumptions = [
    ...(found.loads.arm ? OWN_ASSUMPTIONS : WITHOUT_AN_ARM),
    ...found.loads.assumptions,
  ].map((text) => inWords(text, kind, system));
  const jerking = found.loads.sling?.jerks.length ? found.loads.sling : null;
  return (
    <article className={styles.card} aria-labelledby="card-title" aria-busy={stale}>
      <h2 id="card-title">Loads card</h2>
      <p className={styles.of}>{title}</p>
      <Caution kind="mandatory" title="somebody who knows the trade checks each part">
        <p>
          A reserve is strength over load by the numbers declared; the usual factor stands for what they leave
          out. It says nothing of the part in your hands. The inspector and the safety officer decide.
        </p>
      </Caution>
      <div className={styles.parts}>
        {byPart(found.parts).map((rows) => (
          <PartPanel
            key={rows[0]?.part}
            rows={rows}
            taken={rows[0]?.part === "sling" && jerking ? slingStiffnessText(jerking, system) : null}
            help={help.filter(({ part }) => part === rows[0]?.part)}
            seeking={seeking}
            system={system}
          />
        ))}
        <WholeMachine
          found={found}
          kind={kind}
          help={help.filter(({ part }) => part === "frame")}
          system={system}
        />
      </div>
      <h3>Assumed</h3>
      <ul className={styles.small}>
        {assumptions.map((text) => (
          <li key={text}>{text}</li>
        ))}
      </ul>
      <CheckedBy />
    </article>
  );
}
