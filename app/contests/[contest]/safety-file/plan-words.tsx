/** The safety plan on paper: weather limits, emergency, briefings, and the lines to sign. */
import { coordinates } from "@/app/_ui/words";
import { WrittenLines } from "@/app/_ui/written-lines";
import type { RangePlan, SafetyPlan } from "@/lib/api/contracts";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import styles from "./safety-file.module.css";

/** Of a flash counted to its thunder, m/s. */
const SOUND = 340;

/** Too far to be told in metres. */
const farWords = (metres: number, system: UnitSystem): string =>
  system === "us" ? `${Math.round(metres / 1609.344)} mi` : `${Math.round(metres / 1000)} km`;

export function WeatherWords({
  air,
  plan,
  system,
}: {
  air: RangePlan["air"];
  plan: SafetyPlan | null;
  system: UnitSystem;
}) {
  const gust = Math.max(air.wind?.speed ?? 0, air.wind?.gust ?? 0);
  const light = plan?.light;
  return (
    <Terms
      rows={[
        [
          "Wind",
          gust > 0
            ? `No shot in gusts above ${formatQuantity(gust, "speed", system)}, measured at ${formatQuantity(air.wind?.height ?? 10, "length", system)}.`
            : "No limit is set; the sheets hold for still air only.",
        ],
        [
          "Lightning",
          plan
            ? `Stop when thunder follows a flash within ${plan.lightning.flashToBang} s (about ${farWords(plan.lightning.flashToBang * SOUND, system)}). Wait ${Math.round(plan.lightning.wait / 60)} min after the last thunder.`
            : "",
        ],
        [
          "Light",
          light
            ? [
                light.earliest && `No shot before ${light.earliest}.`,
                light.latest && `No shot after ${light.latest}.`,
                light.visibility !== null &&
                  `A person must still be seen at ${formatQuantity(light.visibility, "distance", system, { digits: 0 })}.`,
              ]
                .filter(Boolean)
                .join(" ")
            : "",
        ],
      ]}
    />
  );
}

export function PlanWords({ plan }: { plan: SafetyPlan }) {
  const place = ({ words, at }: SafetyPlan["ambulance"]) =>
    [words, at && `Position: ${coordinates(at)}`].filter(Boolean).join("\n");
  return (
    <Terms
      rows={[
        ["Emergency call", plan.emergency.number],
        ["What to say", plan.emergency.whatToSay],
        ["Rendezvous for the ambulance", place(plan.ambulance)],
        ["Rendezvous for the fire service", place(plan.fireService)],
        ["First-aid post", place(plan.firstAid)],
        ["Nearest hospital", plan.hospital],
        ["Who stops the range", plan.stop.who],
        ["Horn", plan.stop.horn],
        ["Flag", plan.stop.flag],
        ["Radio", plan.stop.radio],
        ["Fire equipment", plan.fireEquipment],
        ["Insects", plan.nature.insects],
        ["Animals", plan.nature.animals],
        ["Dry grass", plan.nature.dryGrass],
      ]}
    />
  );
}

/** What is not said is said to be missing: an empty line looks like nothing to worry about. */
function Terms({ rows }: { rows: readonly (readonly [string, string])[] }) {
  return (
    <dl className={styles.terms}>
      {rows.map(([term, words]) => (
        <div key={term}>
          <dt>{term}</dt>
          <dd>{words || <em>not written</em>}</dd>
        </div>
      ))}
    </dl>
  );
}

export function BriefingLines({ plan }: { plan: SafetyPlan }) {
  const { officials, crews, spectators } = plan.briefing;
  return (
    <>
      <Terms
        rows={[
          ["To officials", officials],
          ["To crews", crews],
          ["To spectators", spectators],
        ]}
      />
      {plan.briefed.length > 0 && (
        <WrittenLines
          caption="Briefed, and understood"
          rows={plan.briefed.map(({ who, when }) => (when ? `${who}, ${when}` : who))}
        />
      )}
    </>
  );
}

export const Signatures = () => (
  <WrittenLines
    caption="Seen and agreed"
    rows={["Safety officer", "Organiser", "Landowner", "Insurer", "Fire service", "Ambulance service"]}
  />
);
