/**
 * The planned firing order against a plain rota: on the demo, with the zones that the running program draws, on a line
 * of eight where everybody stops everybody, and on forty machines. The yardstick of the time is the plain rota's own.
 */
import type { Zones } from "../../lib/api/contracts";
import { type Day, plan, rota } from "../../lib/firing-order";
import { CONTEST, ORDER_RULES, TIMES } from "../../prisma/demo/content";
import { lineDay, RULES } from "../unit/firing-days";

const MINUTE = 60;
const ROUNDS = CONTEST.rounds;

async function demoDay(): Promise<Day> {
  const url = `${process.env.FAIRTHROW_TEST_URL}/api/v1/contests/${CONTEST.slug}/zones`;
  const zones = ((await (await fetch(url)).json()) as Zones).features.map(({ properties }) => properties);
  const others = (own: (typeof zones)[number]) => {
    const points = own.standClear.filter(({ what }) => what === "firing-point").map(({ id }) => id);
    return zones
      .filter(({ machineId }) => machineId !== own.machineId)
      .filter(({ firingPointId }) => points.includes(firingPointId) || firingPointId === own.firingPointId)
      .map(({ machineId }) => machineId);
  };
  return {
    machines: zones.map(({ machineId, entrantNumber }) => ({
      id: machineId,
      rearm: TIMES[entrantNumber]?.rearm ?? ORDER_RULES.rearm,
      live: TIMES[entrantNumber]?.live ?? ORDER_RULES.live,
    })),
    rules: { ...ORDER_RULES, longestWait: null, rotate: true, pauses: [] },
    covers: new Map(zones.map((zone) => [zone.machineId, others(zone)])),
    clears: new Set(zones.filter((zone) => others(zone).length > 0).map(({ machineId }) => machineId)),
    stages: Array.from({ length: ROUNDS }, (_, index) => ({
      stage: index + 1,
      machines: zones.map(({ machineId }) => machineId),
    })),
    thrown: [],
    now: 0,
  };
}

/** Forty machines, five of which come in the second hour, and an hour at noon. */
function fairDay(): Day {
  const day = lineDay(40, 3, 5, {
    rules: { ...RULES, pauses: [{ from: 180 * MINUTE, to: 240 * MINUTE }] },
  });
  const machines = day.machines.map((machine, index) =>
    index % 8 === 0 ? { ...machine, from: 100 * MINUTE } : machine,
  );
  return { ...day, machines };
}

const minutes = (seconds: number) => `${(seconds / MINUTE).toFixed(1)} min`;

for (const [name, day] of [
  ["demo, 8 machines, 3 rounds", await demoDay()],
  ["8 machines, 3 rounds, every zone covers all", lineDay(8, 3, 7)],
  ["40 machines, 3 rounds", lineDay(40, 3, 5)],
  ["40 machines, 3 rounds, five late, a pause", fairDay()],
] as const) {
  const begun = performance.now();
  const planned = plan(day);
  const took = performance.now() - begun;
  const plain = rota(day);
  console.log(`${name}: planned in ${took.toFixed(0)} ms`);
  for (const [way, { end, longestWait, unfair, unrotated, uneven }] of [
    ["planned", planned],
    ["rota", plain],
  ] as const)
    console.log(
      `  ${way}: ends after ${minutes(end)} (${((end / planned.bound - 1) * 100).toFixed(1)} % beyond the bound), longest wait ${minutes(longestWait)} (fair ${minutes(planned.fairWait)}, ${minutes(unfair)} too much), mean places ${uneven.toFixed(2)} from the middle, ${unrotated < 0.005 ? "rotates" : `does not rotate (${unrotated.toFixed(1)})`}`,
    );
}
