"use client";
/** How to give the stop, without the machine, what the machine would give it. */
import { distanceText, speedText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import type { StopDesign } from "@/lib/throw";
import { formatQuantity } from "@/lib/units";
import styles from "../strength/strength.module.css";
import { wayText } from "./stop-words";

export function DropTest({
  design: { drop, speed, chosen },
  system,
}: {
  design: StopDesign;
  system: UnitSystem;
}) {
  if (!drop || chosen.stroke === null) return null;
  const { mass, steps, clear } = drop;
  const heavy = steps.some(({ height }) => height === null);
  return (
    <section className={styles.part} aria-labelledby="design-drop">
      <h3 id="design-drop">Drop test</h3>
      <Table
        caption={`A weight of ${formatQuantity(mass, "mass", system, { digits: mass < 10 ? 1 : 0 })}, dropped on the stop`}
        stacks
        rows={steps}
        rowKey={({ share }) => share}
        columns={[
          {
            key: "share",
            head: "Of the energy",
            rowHead: true,
            cell: ({ share }) => `${Math.round(100 * share)} %`,
          },
          {
            key: "height",
            head: "Height above the stop",
            number: true,
            cell: ({ height }) => (height === null ? "too heavy" : wayText(height, system)),
          },
          {
            key: "speed",
            head: "Strikes with",
            number: true,
            cell: (step) => (step.speed === null ? "–" : speedText(step.speed, system)),
          },
        ]}
      />
      {heavy && (
        <p>Where it says too heavy, sinking into the stop gives more already: take a lighter weight.</p>
      )}
      <ol className={styles.small}>
        <li>
          Lay the stop on the ground as it will be bolted, on the same timbers and bolts, pushed the way that
          the machine pushes it. Guide the weight by two posts or a pipe so that it strikes the middle.
        </li>
        <li>
          Hoist it with a rope and let go with a catch that is pulled from afar. Nobody under it, no hand on
          the stop while it hangs.
        </li>
        <li>
          {clear === null
            ? "Everybody stands well away"
            : `Everybody stands ${distanceText(clear, system)} away or farther`}{" "}
          (twice the height and {distanceText(5, system)}: common practice, no source), the one who pulls the
          line behind a screen. The safety officer sets the distance and says when.
        </li>
        <li>
          Step by step, the least first. After each measure the way with putty or a slider, and look at every
          bolt, weld and timber. Go on only when the way is no longer than reckoned, nothing is bent, torn or
          loose.
        </li>
        <li>
          125 % is the proof (common practice, no source). What was crushed is replaced; what bent is made new
          and tested anew. Write weights, heights and ways on the back.
        </li>
      </ol>
      <p className={styles.small}>
        A weight brings what it weighs times the height that it falls, the way that the stop gives included:
        that much is each share of the energy, and of what goes on pushing.
        {speed === null
          ? ""
          : ` The machine itself strikes at ${speedText(speed, system)}: rubber and rope are stiffer the faster they are struck, so drop from as high as gives that speed where you can.`}
      </p>
    </section>
  );
}
