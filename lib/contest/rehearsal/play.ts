/**
 * Plays the turns of a day at speed, through the commands that people use. Whoever is played by people is waited for.
 * Whatever stands in the way or is called stops it as it would on the day: a hold is waited out, never passed over.
 */
import { cueWords, PATIENCE, type PlayedTurn, writeScript } from "../../rehearsal";
import { isRefusal } from "../errors";
import { playedNow, tell } from "../range/memory";
import { tellNow } from "../range/tell";
import type { ScorebookDraft } from "../scorebook";
import { committed } from "../write";
import { Field, Held } from "./field";
import type { Played } from "./played";
import { readyToFire } from "./ready";

class Ended extends Error {}

const HEARD = 2000; // ms between two signs that it is still played
const READ = 5; // s
const LIFTED_AFTER = 10; // s, by a safety officer whom the program plays

const shared = globalThis as typeof globalThis & { fairthrowRehearsals?: Set<Rehearsal> };
shared.fairthrowRehearsals ??= new Set();
const running = shared.fairthrowRehearsals;

export function play(played: Played): void {
  const rehearsal = new Rehearsal(played);
  running.add(rehearsal);
  void rehearsal
    .run()
    .catch((error) => console.error("The rehearsal could not be played to its end.", error))
    .finally(() => running.delete(rehearsal));
}

/** Before the database is closed. */
export function closeRehearsals(): void {
  for (const rehearsal of running) rehearsal.close();
  running.clear();
}

class Rehearsal {
  readonly #field: Field;
  #words = "";
  #cue = false;
  #told = false;
  #closed = false;
  #ending = false;
  #timer: NodeJS.Timeout | undefined;

  constructor(private readonly played: Played) {
    this.#field = new Field(played, () => this.#mustGoOn());
    this.#say("Rehearsal: begins.");
  }

  close(): void {
    this.#closed = true;
    clearInterval(this.#timer);
    this.#field.close();
  }

  async run(): Promise<void> {
    this.#timer = setInterval(() => this.#tell(), HEARD).unref();
    try {
      await this.#turns();
    } catch (error) {
      if (!(error instanceof Ended)) throw error;
    } finally {
      if (!this.#closed) await this.#end();
      this.close();
    }
  }

  async #turns(): Promise<void> {
    const { setting, machineIds, seed } = this.played;
    const posts = await this.#field.posts();
    const may: string[] = [];
    let because = "";
    for (const id of machineIds) {
      if (may.length === setting.turns) break;
      const [reason] = await readyToFire(this.played, id);
      if (reason === undefined) may.push(id);
      else because ||= reason;
    }
    if (may.length === 0) {
      this.#say(`Rehearsal: no machine may fire. ${because}`);
      await this.#field.wait(READ);
      return;
    }
    const turns = writeScript({ ...setting, machineIds: may, posts: posts.length, seed });
    for (const [index, turn] of turns.entries()) {
      const words = `Rehearsal, turn ${index + 1} of ${turns.length}`;
      try {
        await this.#turn(turn, words);
      } catch (error) {
        if (!(error instanceof Held) && !isRefusal(error)) throw error;
        if (error instanceof Held || (await this.#field.isHeld())) await this.#afterHold(words);
        else await this.#passOver(words, error.detail);
      }
    }
  }

  async #turn({ machineId, surprise, after, post }: PlayedTurn, turn: string): Promise<void> {
    const field = this.#field;
    const { pace, people } = this.played.setting;
    const asked = (words: string) => (people.safetyOfficer ? ` Safety officer: ${words}` : "");
    const machine = await field.nameOf(machineId);
    const say = (words: string) => this.#say(`${turn}: ${machine}. ${words}`);
    say("Raising.");
    await field.becomes(machineId, "raising");
    await field.wait(pace);
    await field.becomes(machineId, "armed");
    say("Armed. Posts look, and say clear.");
    await field.wait(pace);
    await field.allClear();
    await field.tickAll(machineId);
    say(`Clear at every post.${asked("look yourself, then hot for this machine.")}`);
    await field.hot(machineId);
    say("Hot.");
    await field.wait(pace * (surprise ? after : 1));
    const at = (await field.posts())[post];
    if (surprise && surprise !== "misfire") {
      if (surprise === "dead-phone" && at) field.silence(at.id);
      if (surprise === "lost-network") field.silence("hot");
      await this.#goesWrong(surprise, machineId, machine, at);
    }
    await field.becomes(machineId, surprise === "misfire" ? "misfired" : "fired");
    if (surprise === "misfire") await this.#goesWrong(surprise, machineId, machine, at);
    const what = surprise === "misfire" ? "It misfired: nobody goes near." : "Fired.";
    say(`${what}${asked("cold.")}`);
    await field.wait(pace);
    await field.cold();
    await field.makeSafe(machineId);
    say("Made safe, range cold. Two people walk to the landing point.");
    await field.walk(pace);
  }

  /** Goes on when nobody has called hold for `PATIENCE`; a hold ends the turn. */
  async #goesWrong(
    surprise: NonNullable<PlayedTurn["surprise"]>,
    machineId: string,
    machineName: string,
    post: { id: string; name: string } | undefined,
  ): Promise<void> {
    const postName = post?.name ?? "A post";
    await this.#write({
      act: "rehearsal-cue",
      subjectId: machineId,
      details: { surprise, machineName, postName },
    });
    this.#cue = true;
    const person = this.#byPerson(surprise, post?.id);
    this.#say(`Rehearsal. ${cueWords(surprise, { machine: machineName, post: postName, person })}`);
    try {
      await this.#field.wait(PATIENCE);
    } finally {
      this.#cue = false;
      this.#field.hearAgain();
    }
  }

  #byPerson(surprise: NonNullable<PlayedTurn["surprise"]>, post: string | undefined): boolean {
    const { safetyOfficer, posts } = this.played.setting.people;
    return surprise === "lost-network" ? safetyOfficer : post !== undefined && posts.includes(post);
  }

  /** Something stands in the way, such as what a person has entered meanwhile. */
  async #passOver(turn: string, why: string): Promise<void> {
    this.#say(`${turn} is passed over: ${why}`);
    await this.#field.wait(READ, { held: true });
    await this.#field.tidy();
  }

  async #afterHold(turn: string): Promise<void> {
    const field = this.#field;
    const { safetyOfficer } = this.played.setting.people;
    this.#say(`${turn}: hold. Everybody stands still until the safety officer lifts it.`);
    await field.makeAllSafe();
    if (!safetyOfficer && !(await field.liftedWithin(LIFTED_AFTER))) await field.lift();
    await field.liftedWithin(Number.POSITIVE_INFINITY);
    await field.tidy();
  }

  async #end(): Promise<void> {
    const { db, contest, runId, times } = this.played;
    const calledOff = playedNow(contest.id, Date.now()) === null;
    this.#ending = true;
    await this.#field.tidy().catch(report);
    await this.#field.giveBack(times).catch(report);
    clearInterval(this.#timer);
    const why = "played to its end";
    if (!calledOff) await this.#write({ act: "rehearsal-ended", subjectId: runId, details: { why } });
    tell(db, contest.id, { rehearsal: null });
    await tellNow(db, contest);
  }

  async #write({ act, subjectId, details }: ScorebookDraft): Promise<void> {
    const { contest, cast } = this.played;
    const call = cast.officer();
    await committed(call, contest.id, { act, key: call.key }, async (_, book) => {
      await book.append(act, subjectId, details);
      return {};
    });
  }

  #mustGoOn(): void {
    if (this.#closed || (!this.#ending && playedNow(this.played.contest.id, Date.now()) === null))
      throw new Ended();
  }

  #say(words: string): void {
    this.#words = words;
    this.#tell();
    void tellNow(this.played.db, this.played.contest).catch(report);
  }

  #tell(): void {
    const { db, contest } = this.played;
    // Ended by somebody, perhaps through another instance.
    if (this.#told && playedNow(contest.id, Date.now()) === null) return;
    this.#told = true;
    tell(db, contest.id, { rehearsal: { words: this.#words, cue: this.#cue, at: Date.now() } });
  }
}

/** What does not go is seen on the range's pages. */
function report(error: unknown): void {
  if (!isRefusal(error)) console.error("A rehearsal could not be tidied up.", error);
}
