"use client";
/** What the measured lean is beside the declared one, and what it does to the throw as meant. */
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import { leanText } from "@/app/_ui/inspection/texts";
import { usePreview } from "@/app/_ui/throw-pictures/use-preview";
import { useUnits } from "@/app/_ui/units";
import { type Lean, sideOfLean } from "@/lib/inspection";
import type { HazardRequest, Preview } from "@/lib/throw";
import styles from "../before.module.css";
import { type Fact, Facts } from "../numbers/facts";
import { assumedLean, leaning, leansBy, releaseXOf } from "./leaning";

export function LeanEffect({ request, lean }: { request: HazardRequest; lean: Lean }) {
  const system = useUnits();
  const measured = leaning(request, lean);
  const flat = leaning(request, { along: 0, across: 0 });
  const as = usePreview(measured);
  const level = usePreview(flat);
  const assumed = assumedLean(request);
  const facts: Fact[] = [];
  for (const [way, words] of [
    ["along", ["downrange", "uprange"]],
    ["across", ["to the right", "to the left"]],
  ] as const) {
    const off = assumed === null ? 0 : Math.abs(lean[way] - assumed[way]);
    const beyond = assumed !== null && off > assumed.within[way] + 1e-9;
    // Finer where it is outside by a little.
    const more = beyond && assumed && off - assumed.within[way] < 0.1 ? 2 : 0;
    const beside =
      assumed === null
        ? ""
        : `; declared ${leanText(assumed[way], more)} ± ${leanText(assumed.within[way], more)}${beyond ? ": outside of it, so the hazard sheet does not hold" : ""}`;
    facts.push({
      label: way === "along" ? "Leans along the throw" : "Leans to a side",
      text: `${leanText(Math.abs(lean[way]), more)} ${lean[way] >= 0 ? words[0] : words[1]}${beside}`,
      short: beyond,
    });
  }
  const settled = !as.stale && !level.stale;
  const nominal = as.preview?.nominal;
  const before = level.preview?.nominal;
  if (measured && settled && nominal && before && as.preview) {
    const more = nominal.distance - before.distance;
    facts.push({
      label: "Distance of the throw as meant",
      text: `${distanceText(nominal.distance, system)}: ${distanceText(Math.abs(more), system)} ${more >= 0 ? "farther" : "shorter"} than level`,
    });
    const side = sideways(as.preview, lean.across);
    facts.push({
      label: "To the side",
      text: `${distanceText(Math.abs(side), system)} to the ${side >= 0 ? "right" : "left"} of the bearing, wind apart`,
    });
  }
  const by = leansBy(request.machine);
  return (
    <section aria-labelledby="lean-title" aria-busy={measured !== null && !settled}>
      <h3 id="lean-title">As it stands</h3>
      <Facts facts={facts} />
      {as.failure && <p>Not computed with this lean: {as.failure}</p>}
      <p className={styles.small}>
        {by === null
          ? "What a lean does to a spinning arm is not computed: it tilts the circle, so level it."
          : measured === null
            ? "No machine of this kind leans so far: level it first."
            : by === "lean"
              ? "At the declared numbers. A counterweight on a hinge, and feet that give, lean it more while it throws."
              : "This kind declares no lean: along the throw it was taken off the angle at which it throws; to a side the plane of the throw turns."}
      </p>
    </section>
  );
}

function sideways(preview: Preview, across: number): number {
  const { nominal } = preview;
  if (!nominal) return 0;
  const { distance, releaseHeight, launchAngle } = nominal;
  return sideOfLean({ distance, releaseHeight, launchAngle, releaseX: releaseXOf(preview) ?? 0 }, across);
}
