/** The turns of a played day, and what goes wrong at some of them: where and when nobody can guess. */
import { uniformInt } from "pure-rand/distribution/uniformInt";
import { xoroshiro128plus } from "pure-rand/generator/xoroshiro128plus";

export const SURPRISES = ["misfire", "injury", "dead-phone", "lost-network"] as const;
export type Surprise = (typeof SURPRISES)[number];

/** Whoever plays has so long to call hold before the day goes on, s. */
export const PATIENCE = 30;
/** Of a played misfire, s: on the day it is the safety officer's. */
export const MISFIRE_WAIT = 60;

export interface PlayedTurn {
  machineId: string;
  surprise: Surprise | null;
  /** Of the turn's pace: the surprise comes so long after hot, 1 to 4. */
  after: number;
  /** Which of the posts it is about, from 0. */
  post: number;
}

/**
 * Machines in their order, from the first again when there are more turns than machines; every surprise once, at different
 * turns, never the first when there is another. The same seed writes the same script.
 *
 * @param turns at least as many as there are surprises
 */
export function writeScript({
  machineIds,
  posts,
  turns,
  surprises,
  seed,
}: {
  machineIds: readonly string[];
  posts: number;
  turns: number;
  surprises: readonly Surprise[];
  seed: number;
}): PlayedTurn[] {
  const random = xoroshiro128plus(seed);
  const draw = (least: number, most: number) => uniformInt(random, least, most);
  const free = Array.from({ length: turns }, (_, index) => index);
  // Whoever has just taken their place sees one turn go well first.
  if (turns > surprises.length) free.shift();
  const at = new Map<number, Surprise>();
  for (const surprise of surprises) {
    const [turn] = free.splice(draw(0, free.length - 1), 1);
    if (turn === undefined) throw new RangeError("A played day has at least one turn for every surprise.");
    at.set(turn, surprise);
  }
  return Array.from({ length: turns }, (_, index) => ({
    machineId: machineIds[index % machineIds.length] as string,
    surprise: at.get(index) ?? null,
    after: draw(1, 4),
    post: draw(0, Math.max(0, posts - 1)),
  }));
}

/**
 * What is heard or seen, as it is shown to everybody who practises.
 *
 * @param person whether a person plays the one whose phone fails: then that one makes it fail
 */
export function cueWords(
  surprise: Surprise,
  { machine, post, person }: { machine: string; post: string; person: boolean },
): string {
  switch (surprise) {
    case "misfire":
      return `Crew of ${machine}, by radio: “It did not go.” One of them walks towards it.`;
    case "injury":
      return `${post}, by radio: “Somebody is under the rope, in the zone of ${machine}, fell and does not get up.”`;
    case "dead-phone":
      return person
        ? `${post}: switch your phone off, and answer nobody. Everybody else: ${post} does not answer.`
        : `Nobody answers at ${post}: its phone is dead.`;
    case "lost-network":
      return person
        ? "Safety officer: switch your phone’s network off, and leave the page open. Everybody else: the safety officer’s page has lost the network."
        : "The safety officer’s page has lost the network.";
  }
}
