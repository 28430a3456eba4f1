/** The range as its own pages show it. Open to all: no name stands in it. */
import { type RangeMachine, type RangePost, type RangeView, rangeQuery } from "../../api/contracts";
import type { Database } from "../../db";
import { isSilent, machineOf, type RangeState, standsInTheWay, whereWords } from "../../range";
import { parse } from "../errors";
import { contestBySlug } from "../find";
import { scorebookHead } from "../scorebook";
import { SharedReading } from "../shared-reading";
import { briefOf } from "./brief";
import { factsOf, type RangeFacts } from "./facts";
import { rangeNow } from "./store";

/** Everybody who has just heard of a change asks at the same time. */
const reading = new SharedReading<RangeView>();

export async function rangeView(db: Database, slug: string, query: unknown): Promise<RangeView> {
  const { machine } = parse(rangeQuery, query);
  return reading.read(`${slug} ${machine ?? ""}`, () => readView(db, slug, machine));
}

async function readView(db: Database, slug: string, asked: string | undefined): Promise<RangeView> {
  const contest = await contestBySlug(db, slug);
  const { sequence } = await scorebookHead(db, contest.id);
  const at = Date.now();
  const state = await rangeNow(db, contest.id, at);
  const facts = await factsOf(db, contest, [asked]);
  return {
    ...briefOf(contest.id, state, facts, at),
    sequence,
    posts: facts.posts.map((post) => postState(post, state, facts, at)),
    out: state.out.length,
    machines: facts.machines.flatMap(({ id }) => machineState(id, state, facts)),
    times: state.times,
    firing: asked ? firingState(asked, state, facts, at) : null,
  };
}

function postState(
  { id, name }: RangeFacts["posts"][number],
  state: RangeState,
  { zones }: RangeFacts,
  at: number,
): RangePost {
  const clear = state.clears[id];
  const inZoneOf = [...zones.values()]
    .filter(({ standClear }) => standClear.some((each) => each.id === id))
    .map(({ machineName }) => machineName);
  const lost = clear && isSilent(clear, at, state.times);
  return {
    id,
    name,
    state: !clear ? "not-clear" : lost ? "lost" : clear.left ? "left" : "clear",
    since: clear ? new Date(clear.at).toISOString() : null,
    inZoneOf,
  };
}

function machineState(id: string, state: RangeState, { zones, machines }: RangeFacts): RangeMachine[] {
  const zone = zones.get(id);
  if (!zone) return [];
  const machine = machineOf(state, id);
  const misfired = machine.state === "misfired";
  const held = machines.find((each) => each.id === id)?.holds ?? null;
  const from = machine.since + state.times.misfireWait * 1000;
  return [
    {
      id,
      name: zone.machineName,
      entrantId: zone.entrantId,
      entrantNumber: zone.entrantNumber,
      entrantName: zone.entrantName,
      firingPointNumber: zone.firingPointNumber,
      state: machine.state,
      step: machine.step,
      since: machine.since > 0 ? new Date(machine.since).toISOString() : null,
      where: whereWords[machine.state],
      approachFrom: misfired ? new Date(from).toISOString() : null,
      approached: machine.approach !== null,
      holds: held && [...held],
    },
  ];
}

function firingState(
  machineId: string,
  state: RangeState,
  facts: RangeFacts,
  at: number,
): RangeView["firing"] {
  const firing = facts.firing[machineId];
  if (!firing) return null;
  const { ticked } = state;
  const keys = ticked?.machineId === machineId && ticked.version === firing.version ? ticked.keys : [];
  return {
    machineId,
    machineName: facts.zones.get(machineId)?.machineName ?? "",
    inTheWay: standsInTheWay(state, facts, machineId, at),
    version: firing.version,
    standClear: firing.list.map(({ key, name }) => ({ key, name, ticked: keys.includes(key) })),
  };
}
