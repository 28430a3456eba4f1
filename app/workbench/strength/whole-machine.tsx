"use client";
/** What is told of the machine as a whole: frame on the ground, energies, and the numbers of kinds without an arm. */
import { atMostText } from "@/app/_ui/beside-limit";
import { energyText, instantText, loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { Breakage, Help, Machine } from "@/lib/throw";
import { helpText } from "./help-words";
import styles from "./strength.module.css";

type Fact = { label: string; text: string };

export function WholeMachine({
  found,
  kind,
  help,
  system,
}: {
  found: Breakage;
  kind: Machine["kind"];
  help: readonly Help[];
  system: UnitSystem;
}) {
  const facts = factsOf(found, system);
  const without = WITHOUT[kind];
  return (
    <section className={styles.part} aria-labelledby="part-whole">
      <h3 id="part-whole">The machine as a whole</h3>
      {facts.length > 0 && (
        <dl className={styles.facts}>
          {facts.map(({ label, text }) => (
            <div key={label}>
              <dt>{label}</dt>
              <dd>{text}</dd>
            </div>
          ))}
        </dl>
      )}
      {help.length > 0 && (
        <p className={styles.small}>
          So that the frame stays down: {help.map((each) => helpText(each, 1, system)).join(" ")} On a frame
          that does not roll.
        </p>
      )}
      {without && <p className={styles.small}>{without}</p>}
    </section>
  );
}

/** What does not apply to a kind, so that nobody takes silence for strength. */
const WITHOUT: Partial<Record<Machine["kind"], string>> = {
  "spinning-arm":
    "A spinning arm has no sling, hanger or end stop that is computed here. Its hub, shaft, bearings and balance are not judged: the pulls above are theirs to bear, with a factor that whoever sizes them by trade must set.",
  tension:
    "Limbs, cords and springs have no sling, arm, pivot or end stop that is computed here. What they bear is not judged: a dry fire gives them all the stored energy back, and breaks them.",
  "air-cannon":
    "An air cannon has no sling, arm, pivot or end stop. Its valve, cap, joints and barrel are not judged: the chamber's rating is, and only a pressure-vessel inspector can say what it is worth today.",
  measured:
    "Of this machine only the speed was measured: no load of it is known, and none is judged. Choose its kind on the machine page to have its loads computed.",
};

function factsOf({ loads, energies, slips }: Breakage, system: UnitSystem): Fact[] {
  const out: Fact[] = [];
  const put = (label: string, text: string) => out.push({ label, text });
  const { stability, energyLeft, spin, draw, chamber } = loads;
  if (stability) {
    const { front, rear, time, friction, tips, slides } = stability;
    const least = Math.min(front, rear);
    const edge = front < rear ? "front" : "rear";
    put(
      "Frame on the ground",
      [
        tips
          ? `tips over the ${edge} edge, short of ${loadText(-least, "torque", system)} at ${instantText(time)}`
          : `${loadText(least, "torque", system)} hold it down about the ${edge} edge at least, at ${instantText(time)}`,
        friction === null ? "lifts" : `friction of ${atMostText(friction)} needed not to slide`,
        slides === null
          ? ""
          : slides
            ? "slides on the declared friction"
            : "does not slide on the declared friction",
      ]
        .filter(Boolean)
        .join("; "),
    );
  } else if (energies) put("Frame on the ground", loads.stabilityNote);
  if (slips !== null) put("The loop slips", `at ${instantText(slips)}`);
  if (energies) {
    put("Let loose by a dry fire", energyText(energies.dryFire, system));
    if (energyLeft !== null)
      put("Left in the machine after a throw as meant", energyText(energyLeft, system));
  }
  if (spin) {
    put("Pull of the projectile on the hub", loadText(spin.projectilePull, "force", system));
    put(
      "Pull of the arm on the hub",
      spin.armPull === null
        ? "not known: the arm's mass is not declared"
        : loadText(spin.armPull, "force", system),
    );
  }
  if (draw) {
    put("Force at full draw", loadText(draw.peakForce, "force", system));
    put("Stored at full draw, all of it in a dry fire", energyText(draw.storedEnergy, system));
  }
  if (chamber) put("Force of the gas on a cap of the bore", loadText(chamber.capForce, "force", system));
  return out;
}
