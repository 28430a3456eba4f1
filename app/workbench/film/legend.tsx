"use client";
/** What the letters and lines of the pictures mean, and how long a force is drawn. */
import { loadText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { type Dimension, formatQuantity, fromSI, toSI, unitLabel, unitOf } from "@/lib/units";
import styles from "./film.module.css";
import { roundBelow } from "./pictures/brush";
import type { MachineScene } from "./pictures/machine-scene";

/** About how long a bar of a legend is, px. */
const BAR = 70;

export function Legend({
  scene,
  cup,
  weight,
  system,
}: {
  scene: MachineScene;
  cup: boolean;
  weight: boolean;
  system: UnitSystem;
}) {
  const { scale, slingScale, forceScale, momentScale } = scene;
  return (
    <ul className={styles.legend}>
      <Bar dimension="distance" scale={scale} system={system} what="to scale" />
      <Bar dimension="force" scale={slingScale} system={system} what="length of arrow S" />
      <Bar
        dimension="force"
        scale={forceScale}
        system={system}
        what={weight ? "length of arrows P and W" : "length of arrow P"}
      />
      <Bar dimension="torque" scale={momentScale} system={system} what="width of the tinted strip" />
      <li>
        <b>S</b> {cup ? "push on the cup" : "pull of the sling on the tip"}, <b>P</b> force of all that moves
        on the pivot
        {weight && (
          <>
            , <b>W</b> pull of the counterweight on what carries it
          </>
        )}
        ; tinted strip along the arm: how it is bent
      </li>
      <li>
        Full line: path of the projectile. Dashes: of the tip. Dots: of the counterweight; thin dots: after
        the release
      </li>
    </ul>
  );
}

function Bar({
  dimension,
  scale,
  system,
  what,
}: {
  dimension: Dimension;
  /** px for each SI unit */
  scale: number;
  system: UnitSystem;
  what: string;
}) {
  const unit = unitOf(dimension, unitLabel(dimension, system));
  const round = roundBelow(fromSI(BAR / scale, unit));
  const value = toSI(round, unit);
  const text =
    dimension === "distance" ? formatQuantity(value, dimension, system) : loadText(value, dimension, system);
  return (
    <li>
      <span className={styles.bar} style={{ width: value * scale }} aria-hidden="true" /> {text}, {what}
    </li>
  );
}
