/** Stands above everything else on the page: a throw went too far. */
import { Caution } from "@/app/_ui/caution";
import { distanceText } from "@/app/_ui/hazard-sheet/words";
import type { UnitSystem } from "@/lib/units";
import type { Judged, MachineFound } from "./use-machine";

const RANK = { quiet: 0, short: 1, alarm: 2, hold: 3 } as const;

function gravity({ machine: { calibration, behindWorst } }: Judged): keyof typeof RANK {
  if (calibration.hold || behindWorst.length > 0) return "hold";
  if (calibration.alarm) return "alarm";
  return calibration.marks.at(-1)?.verdict === "short" ? "short" : "quiet";
}

/** Of what is known of the throws as they stand and what was said before, the worse, until all is worked out. */
export function StopThrowing({ found, system }: { found: MachineFound; system: UnitSystem }) {
  const { now, before } = found;
  const known = [now, now && !now.provisional ? null : before].flatMap((each) => each ?? []);
  const [worst] = known.sort((a, b) => RANK[gravity(b)] - RANK[gravity(a)]);
  const working = !now || now.provisional;
  return (
    <div role="status" aria-busy={working}>
      {worst ? <Said judged={worst} system={system} /> : null}
      {found.failure ? (
        <Caution kind="prohibition" title="throw while the last one is not judged">
          <p>Whether it went too far could not be computed: {found.failure}</p>
        </Caution>
      ) : null}
    </div>
  );
}

function Said({ judged, system }: { judged: Judged; system: UnitSystem }) {
  const { machine, asked, provisional } = judged;
  const { calibration, behindWorst, worst } = machine;
  const metres = (value: number) => distanceText(value, system);
  const of = (verdict: string) =>
    calibration.marks.flatMap((mark) => (mark.verdict === verdict ? metres(mark.distance) : [])).join(", ");
  const rank = gravity(judged);
  if (rank === "hold") {
    const far = [
      of("model-wrong"),
      ...behindWorst.map((index) => `${metres(asked.backward[index]?.distance ?? 0)} backwards`),
    ].filter(Boolean);
    return (
      <Caution kind="prohibition" title="stop throwing, the model is wrong">
        <p>
          A throw ({far.join(", ")}) went beyond the worst that is computed for the machine as it is declared
          ({metres(worst.forward)} ahead, {metres(worst.backward)} behind, in the gust that is declared
          {provisional ? ", without tolerances: these are being worked out" : ""}). No distance that follows
          from the model holds, the keep-out zone&rsquo;s neither. Make the machine safe, keep everybody away,
          and find out why before anybody throws again: measure the machine anew, weigh what it throws, read
          the wind, and show it to whoever inspects it.
        </p>
      </Caution>
    );
  }
  if (rank === "alarm")
    return (
      <Caution kind="warning" title="alarm: stop and find out why">
        <p>
          A throw ({of("alarm")}) went beyond what 99 in 100 stay below by the other throws, or farther than
          the declared machine can without any loss. Something has changed, or was declared or written down
          wrong: the projectile, the wind, the pin, the machine. Make it safe, look, and measure before the
          next throw.
        </p>
      </Caution>
    );
  if (rank === "short")
    return (
      <Caution kind="warning" title="the last throw fell far short">
        <p>
          A loop that slips badly, a rope that drags or a part that gives way may throw anywhere the next
          time. Make it safe and find out why; if the mark was written down wrong, correct it.
        </p>
      </Caution>
    );
  return null;
}
