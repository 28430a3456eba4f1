"use client";
/** The design: way and force of every kind of stop, bolts, anchoring, and how to prove it. For screen and one page of paper. */
import { atLeastText } from "@/app/_ui/beside-limit";
import { Caution, SafetySign } from "@/app/_ui/caution";
import { energyText, loadText, speedText } from "@/app/_ui/hazard-sheet/words";
import { Table } from "@/app/_ui/table";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { MOST_BOLTS, type StopDesign, type StopInput } from "@/lib/throw";
import { CheckedBy } from "../checked-by";
import styles from "../strength/strength.module.css";
import { DropTest } from "./drop-test";
import { KIND_WORDS, wayText } from "./stop-words";

interface Props {
  design: StopDesign;
  input: StopInput;
  system: UnitSystem;
}

const NOTHING_PUSHES =
  "nothing is counted: where a counterweight or springs still push, every force below is too small";

/** @param props.title the machine's, @param props.from where the energy is from */
export function StopCard({ title, from, ...props }: Props & { title: string; from: string }) {
  const { design, input, system } = props;
  const { chosen, speed } = design;
  const facts = [
    ["Arrives", `${energyText(input.energy, system)}, ${from}`],
    [
      "Moving mass at the stop",
      input.movingMass === undefined
        ? "not given: no speed and no deceleration is told"
        : `${loadText(input.movingMass, "mass", system)} at ${speedText(speed ?? 0, system)}`,
    ],
    ["Goes on pushing meanwhile", input.drive > 0 ? loadText(input.drive, "force", system) : NOTHING_PUSHES],
  ];
  return (
    <article className={styles.card} aria-labelledby="design-title">
      <h2 id="design-title">The stop</h2>
      <p className={styles.of}>{title}</p>
      <Caution kind="mandatory" title="prove it by a drop test before anything is armed">
        <p>
          Reckoned from the numbers above; nothing here says that a stop holds. Somebody who designs such
          joints by trade checks it, the inspector sees the test, and the safety officer decides.
        </p>
      </Caution>
      <dl className={styles.facts}>
        {facts.map(([label, text]) => (
          <div key={label}>
            <dt>{label}</dt>
            <dd>{text}</dd>
          </div>
        ))}
      </dl>
      <Kinds {...props} />
      {chosen.stroke === null ? (
        <Caution title={`${KIND_WORDS[chosen.kind].label}: it does not brake this within what is given`}>
          <p>Allow more force or more way, bring less energy to it, or take another kind.</p>
        </Caution>
      ) : (
        <>
          <Bolts {...props} />
          <Anchors {...props} />
          <DropTest {...props} />
        </>
      )}
      <CheckedBy />
    </article>
  );
}

function Kinds({ design, system }: Props) {
  const none = "not within it";
  return (
    <section className={styles.part} aria-labelledby="design-kinds">
      <h3 id="design-kinds">Way and force</h3>
      <Table
        caption="Every kind of stop under the same limit"
        hideCaption
        stacks
        rows={design.kinds}
        rowKey={({ kind }) => kind}
        columns={[
          {
            key: "kind",
            head: "Kind",
            rowHead: true,
            cell: ({ kind }) => `${KIND_WORDS[kind].label}${kind === design.chosen.kind ? ", chosen" : ""}`,
          },
          {
            key: "way",
            head: "Way",
            number: true,
            cell: ({ stroke }) => (stroke === null ? none : wayText(stroke, system)),
          },
          {
            key: "force",
            head: "Peak force",
            number: true,
            cell: ({ force }) => (force === null ? "–" : loadText(force, "force", system)),
          },
          {
            key: "deceleration",
            head: "Deceleration",
            number: true,
            cell: ({ deceleration }) =>
              deceleration === null ? "–" : `${Number(deceleration.toPrecision(2))} × gravity`,
          },
          {
            key: "thickness",
            head: "Thickness for it",
            number: true,
            cell: ({ thickness }) => (thickness === null ? "–" : wayText(thickness, system)),
          },
          {
            key: "mean",
            head: "Mean over peak, from where",
            cell: ({ efficiency, source }) =>
              efficiency > 0 ? `${Number(efficiency.toPrecision(2))}, ${source}` : "–",
          },
        ]}
      />
      <p className={styles.small}>
        {KIND_WORDS[design.chosen.kind].note}{" "}
        {design.chosen.rebounds ? "Something must catch the way back. " : ""}
        Pressed beyond its way, any of them stops what comes like a wall.
      </p>
    </section>
  );
}

function Bolts({ design: { bolts, chosen }, input, system }: Props) {
  if (!bolts || chosen.force === null) return null;
  const { count, each, reserve, tooMany, size } = bolts.chosen;
  const { planes, designFactor, shearStrength } = input.bolt;
  return (
    <section className={styles.part} aria-labelledby="design-bolts">
      <h3 id="design-bolts">Bolts in shear</h3>
      <p>
        <strong>
          {count} bolts {size}, class {input.bolt.class}
        </strong>
        , each cut {planes === 1 ? "once" : "twice"}. One shears at {loadText(each, "force", system)}.
        Together they hold {atLeastText(reserve)} times the peak force of{" "}
        {loadText(chosen.force, "force", system)}. The factor asked for is {designFactor}.
      </p>
      {tooMany && (
        <p>
          <strong className="sheet-verdict">
            <SafetySign kind="warning" size={18} />
            More than {MOST_BOLTS} bolts do not share a blow: take thicker ones, or a longer way.
          </strong>
        </p>
      )}
      <p>
        Of each size it takes:{" "}
        {bolts.sizes.map((one) => `${one.count > 99 ? "over 99" : one.count} of ${one.size}`).join(", ")}.
      </p>
      <p className={styles.small}>
        Assumed: {loadText(bolts.shearStrength, "stress", system)} in shear (
        {shearStrength === undefined
          ? "ISO 898-1 or SAE J429 with EN 1993-1-8, from memory"
          : "as you gave it"}
        ), the thread in the cut (stress areas of ISO 898-1 and ASME B1.1, from memory), all bolts sharing
        evenly, two at least. Not modelled: the wood or plate around the bolt, which in timber gives way
        first; bending of the bolt; a blow off its middle. Have the joint designed, with steel plates on the
        timber.
      </p>
    </section>
  );
}

function Anchors({ design: { anchors }, input, system }: Props) {
  return (
    <section className={styles.part} aria-labelledby="design-anchors">
      <h3 id="design-anchors">Anchoring of the frame</h3>
      {anchors && input.frame ? (
        <p>
          {anchors.level > 0
            ? `Stakes or ties must hold ${loadText(anchors.level, "force", system)} level, beyond friction.`
            : "Friction alone takes the level push by these numbers."}{" "}
          {anchors.down > 0
            ? `The edge away from the push must be held down with ${loadText(anchors.down, "force", system)}: the frame's weight is ${atLeastText(anchors.tippingReserve ?? 0)} of what the push takes to lift it.`
            : `The frame's weight is ${anchors.tippingReserve === null ? "all that acts" : `${atLeastText(anchors.tippingReserve)} times what the push takes to lift it`}.`}{" "}
          Before any factor, as if the peak force stood still at {wayText(input.frame.height, system)} above
          the ground, level: the careful side of a blow that passes at once. Stakes hold what the ground
          holds: pull one to learn it.
        </p>
      ) : (
        <p>Cannot be told: give the frame&rsquo;s mass, the length of its base and the height of the stop.</p>
      )}
    </section>
  );
}
