/** What those whom the program plays do on the range, and what is waited for where people play. */
import type { MachineState, RangeState, Times } from "../../range";
import { isSilent, machineOf } from "../../range";
import {
  beat,
  enterMachineState,
  goCold,
  goHot,
  liftHold,
  nameApproach,
  rangeView,
  sayAtPost,
  setTimes,
  tagIn,
  tagOut,
  tickList,
} from "../range";
import { rangeNow } from "../range/store";
import type { Played } from "./played";

/** Thrown where a hold stands. */
export class Held extends Error {}

const LOOK = 250; // ms
const BEAT = 2000; // ms
/** The phone of every post that the program plays. */
const PHONE = "a played post’s phone";
/** Who walks; no names. */
const TAGS = ["Rehearsal 1", "Rehearsal 2"];

export class Field {
  readonly #timer: NodeJS.Timeout;
  readonly #silent = new Set<string>();

  /** @param mustGoOn throws when the rehearsal has ended */
  constructor(
    private readonly played: Played,
    private readonly mustGoOn: () => void,
  ) {
    this.#timer = setInterval(() => void this.#beats().catch(() => {}), BEAT).unref();
  }

  close(): void {
    clearInterval(this.#timer);
  }

  /** A post's id, or "hot": it is not heard any more. */
  silence(what: string): void {
    this.#silent.add(what);
  }
  hearAgain(): void {
    this.#silent.clear();
  }

  posts = async () => (await this.#view()).posts;

  async nameOf(machineId: string): Promise<string> {
    const { machines } = await this.#view();
    return machines.find(({ id }) => id === machineId)?.name ?? "A machine";
  }

  /** s; throws `Held` as soon as a hold stands, but where one stands anyway. */
  async wait(seconds: number, { held = false } = {}): Promise<void> {
    const until = Date.now() + seconds * 1000;
    await this.#until(() => Date.now() >= until, { held });
  }

  async becomes(machineId: string, to: MachineState): Promise<void> {
    const { step } = machineOf(await this.#now(), machineId);
    await enterMachineState(this.played.cast.officer(), this.#slug, machineId, { to, step });
  }

  /** Posts that people play are waited for; one that has said clear need not say it again. */
  async allClear(): Promise<void> {
    for (const { id, inZoneOf } of await this.posts()) {
      if (this.played.setting.people.posts.includes(id)) continue;
      const { turn } = await this.#now();
      const said = { clear: true, turn, phone: PHONE, left: inZoneOf.length > 0 };
      await sayAtPost(this.played.cast.judge(), this.#slug, id, said);
    }
    const posts = await this.posts();
    await this.#until((state) => posts.every(({ id }) => heard(state, id)));
  }

  async tickAll(machineId: string): Promise<void> {
    const { firing, turn } = await rangeView(this.played.db, this.#slug, { machine: machineId });
    for (const { key, ticked } of firing?.standClear ?? [])
      if (!ticked)
        await tickList(this.played.cast.judge(), this.#slug, {
          machineId,
          version: firing?.version,
          key,
          done: true,
          turn,
        });
  }

  async hot(machineId: string): Promise<void> {
    const { turn } = await this.#now();
    if (!this.played.setting.people.safetyOfficer)
      await goHot(this.played.cast.officer(), this.#slug, { machineId, turn });
    await this.#until(({ hot }) => hot?.machineId === machineId);
  }

  async cold(): Promise<void> {
    const { hot } = await this.#now();
    if (hot && !this.played.setting.people.safetyOfficer)
      await goCold(this.played.cast.officer(), this.#slug, { hot: hot.id });
    await this.#until((state) => state.hot === null);
  }

  /** After its waiting time, and by one person, where it misfired. */
  async makeSafe(machineId: string, { held = false } = {}): Promise<void> {
    const { state, since, approach, step } = machineOf(await this.#now(), machineId);
    if (state === "safe") return;
    if (state === "misfired" && approach === null) {
      const { times } = await this.#now();
      const from = since + times.misfireWait * 1000;
      await this.#until((now) => now.hot === null && Date.now() > from, { held });
      const call = this.played.cast.officer();
      await nameApproach(call, this.#slug, machineId, { name: "Rehearsal", step });
    }
    await this.becomes(machineId, "safe");
    await this.#tagAllIn();
  }

  /** But those that misfired: they wait. */
  async makeAllSafe(): Promise<void> {
    for (const [id, { state }] of Object.entries((await this.#now()).machines))
      if (state !== "safe" && state !== "misfired") await this.becomes(id, "safe");
  }

  async walk(seconds: number): Promise<void> {
    for (const number of TAGS) await tagOut(this.played.cast.judge(), this.#slug, { number });
    await this.wait(seconds);
    await this.#tagAllIn();
  }

  isHeld = async (): Promise<boolean> => (await this.#now()).holds.length > 0;

  async lift(): Promise<void> {
    const holds = (await this.#now()).holds.map(({ id }) => id);
    if (holds.length > 0) await liftHold(this.played.cast.officer(), this.#slug, { holds });
  }

  /** By whom ever; s. */
  async liftedWithin(seconds: number): Promise<boolean> {
    const until = Date.now() + seconds * 1000;
    let lifted = false;
    await this.#until(
      ({ holds }) => {
        lifted = holds.length === 0;
        return lifted || Date.now() >= until;
      },
      { held: true },
    );
    return lifted;
  }

  /** As a range is left: cold, every machine made safe, everybody in. A hold stays: whoever may lifts it. */
  async tidy(): Promise<void> {
    const { hot } = await this.#now();
    if (hot) await goCold(this.played.cast.officer(), this.#slug, { hot: hot.id });
    await this.#tagAllIn();
    await this.makeAllSafe();
    for (const id of Object.keys((await this.#now()).machines)) await this.makeSafe(id, { held: true });
  }

  async giveBack(times: Times): Promise<void> {
    await setTimes(this.played.cast.officer(), this.#slug, { times, reason: "The rehearsal is over." });
  }

  get #slug(): string {
    return this.played.contest.slug;
  }
  #view = () => rangeView(this.played.db, this.#slug, {});
  #now = () => rangeNow(this.played.db, this.played.contest.id);

  async #until(so: (state: RangeState) => boolean, { held = false } = {}): Promise<void> {
    for (;;) {
      this.mustGoOn();
      const state = await this.#now();
      if (!held && state.holds.length > 0) throw new Held();
      if (so(state)) return;
      await new Promise((resolve) => setTimeout(resolve, LOOK).unref());
    }
  }

  async #tagAllIn(): Promise<void> {
    const out = await this.played.db.tag.findMany({
      where: {
        contestId: this.played.contest.id,
        inAt: null,
        OR: [{ number: { in: TAGS } }, { name: "Rehearsal" }],
      },
      select: { id: true },
    });
    for (const { id } of out) await tagIn(this.played.cast.judge(), this.#slug, id);
  }

  async #beats(): Promise<void> {
    const { db, cast, setting } = this.played;
    const { hot, clears } = await this.#now();
    if (hot && !setting.people.safetyOfficer && !this.#silent.has("hot"))
      await beat(db, cast.officer().actor, this.#slug, { hot: hot.id });
    for (const [id, { phone }] of Object.entries(clears))
      if (phone === PHONE && !this.#silent.has(id))
        await beat(db, cast.judge().actor, this.#slug, { post: { id, phone } });
  }
}

const heard = ({ clears, times }: RangeState, post: string): boolean => {
  const clear = clears[post];
  return clear !== undefined && !isSilent(clear, Date.now(), times);
};
