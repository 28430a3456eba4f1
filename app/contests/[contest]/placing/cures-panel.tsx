"use client";
/** What would keep a machine's zone off what it touches, cheapest first. Each is looked at here and done elsewhere. */
import type { Geometry } from "geojson";
import { Button, ButtonLink } from "@/app/_ui/button";
import { useUnits } from "@/app/_ui/units";
import { conflictWords } from "@/app/_ui/zones/conflict-words";
import type { Cure, Cures, PlacingMachine } from "@/lib/api/contracts";
import { LongAnswer } from "./long-answer";
import styles from "./placing.module.css";
import { type FiringPoint, type Trial, trialAt } from "./trial";
import { useAnswer } from "./use-answer";
import { costWords, cureTitle, distanceWords, kindWords, points as pointsWords } from "./words";

/** Features where a cure would have them. */
export type Looked = readonly Geometry[] | null;

interface Props {
  slug: string;
  machine: PlacingMachine;
  points: readonly FiringPoint[];
  /** Where it stands by the record. */
  record: Trial | null;
  organiser: boolean;
  onTry: (trial: Trial | null) => void;
  onLook: (looked: Looked) => void;
}

export function CuresPanel(props: Props) {
  const { slug, machine, record } = props;
  const system = useUnits();
  const { asked, ask } = useAnswer<Cures>();
  return (
    <section aria-labelledby="cures">
      <h2 id="cures">Cures</h2>
      {record && machine.reach ? (
        <>
          <p>
            What would keep the zone of {machine.machineName}, where it stands by the record, off what it
            touches. Every cure is held against all features with an official sheet of its own, which takes up
            to a minute. Nothing is done by itself.
          </p>
          <Button
            aria-disabled={asked.state === "asking" || undefined}
            onClick={() =>
              asked.state !== "asking" &&
              void ask(`/api/v1/contests/${slug}/cures?machine=${machine.machineId}`)
            }
          >
            Find cures
          </Button>
        </>
      ) : (
        <p>Cures are sought for a machine that stands at a firing point and has a hazard sheet.</p>
      )}
      <div aria-live="polite" className={styles.answer}>
        <LongAnswer asked={asked} label="Cures" />
        {asked.state === "answered" && <Found {...props} answer={asked.answer} system={system} />}
      </div>
    </section>
  );
}

function Found({ answer, system, ...props }: Props & { answer: Cures; system: ReturnType<typeof useUnits> }) {
  if (answer.conflicts.length === 0)
    return <p>Its zone touches nothing it must not, so there is nothing to cure.</p>;
  return (
    <>
      <ul>
        {answer.conflicts.map((found) => (
          <li key={found.featureId}>
            <strong>{found.name}</strong>: the zone{" "}
            {conflictWords({ ...found, kind: found.kind as "road" }, system)}.
          </li>
        ))}
      </ul>
      <ol className={styles.cures}>
        {answer.cures.map((cure) => (
          <li key={cureTitle(cure, "metric")}>
            <strong>{cureTitle(cure, system)}</strong>
            <span>
              {distanceWords(cure, system)} Costs {pointsWords(cure.cost)}.
            </span>
            <span className="button-row">
              <Way cure={cure} {...props} />
            </span>
          </li>
        ))}
      </ol>
      {answer.without.length > 0 && (
        <>
          <p>What was looked for and not found:</p>
          <ul>
            {answer.without.map(({ kind, reason }) => (
              <li key={kind}>
                {kindWords(kind)}: {reason}
              </li>
            ))}
          </ul>
        </>
      )}
      <details>
        <summary>What the points count</summary>
        <p>A guide to the order, not a price: common practice, no source.</p>
        <ul>
          {answer.costs.map((cost) => (
            <li key={cost.kind}>{costWords(cost, system)}</li>
          ))}
        </ul>
        <p>
          Between the tried values there may be cheaper cures. Another firing point counts its turn as well. A
          barrier stops only what flies lower than it, and counts once the safety officer has signed for it.
        </p>
      </details>
    </>
  );
}

/** How a cure is looked at, and where it is done. */
function Way({ cure, slug, machine, points, record, organiser, onTry, onLook }: Props & { cure: Cure }) {
  const show = (trial: Trial) => {
    onTry(trial);
    document.getElementById("machine")?.scrollIntoView({ block: "start" });
  };
  switch (cure.kind) {
    case "turn":
      return (
        record && (
          <Button onClick={() => show({ ...record, bearing: cure.bearing })}>Try it on the map</Button>
        )
      );
    case "point": {
      const point = points.find(({ id }) => id === cure.firingPointId);
      return point && <Button onClick={() => show(trialAt(point, cure.bearing))}>Try it on the map</Button>;
    }
    case "shift":
      return (
        <>
          {record && (
            <Button
              onClick={() => show({ ...record, pointId: null, stand: { ...record.stand, ...cure.place } })}
            >
              Try it on the map
            </Button>
          )}
          {organiser ? (
            <ButtonLink href={`/contests/${slug}/organise/site`}>Lay out a firing point</ButtonLink>
          ) : (
            "The organiser lays out the firing point."
          )}
        </>
      );
    case "crowd":
      return (
        <>
          <Button
            onClick={() => {
              if (record) show(record);
              onLook(cure.moves.map(({ geometry }) => geometry));
            }}
          >
            Look at it on the map
          </Button>
          {organiser ? (
            <ButtonLink href={`/contests/${slug}/organise/site`}>Change the site</ButtonLink>
          ) : (
            "The organiser changes the site."
          )}
        </>
      );
    case "barrier":
      return (
        <>
          <Button
            onClick={() => {
              if (record) show(record);
              onLook([cure.line]);
            }}
          >
            Look at it on the map
          </Button>
          {organiser ? (
            "Only the safety officer can sign for it, once it stands and is known to hold."
          ) : (
            <ButtonLink href={`/contests/${slug}/organise/conditions`}>Sign for a barrier</ButtonLink>
          )}
        </>
      );
    case "strength":
      return (
        <>
          <ButtonLink href={`/contests/${slug}/machines/${machine.machineId}`}>Its page</ButtonLink>
          <span>The team must declare a revision, and build it so.</span>
        </>
      );
  }
}
