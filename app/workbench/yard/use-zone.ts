"use client";
/** The hazard sheet of the newest question; an older question's work is dropped. Answers are kept by what they answer. */
import { useEffect, useState } from "react";
import { type LongJob, startLongJob } from "@/app/_ui/long-job";
import { type KeptZone, keepZone, keptZone, zoneKey } from "./kept-zone";
import { answerTo, type ZoneAnswer, type ZoneQuestion } from "./question";

export interface Worked {
  /** The last answer, of whatever question. */
  answer: ZoneAnswer | null;
  /** Whether it answers the question that is asked now: nothing else may be drawn as a zone. */
  current: boolean;
  /** How much of the newest is done, 0 to 1; null while nothing is under way. */
  done: number | null;
  /** Why the newest has no answer. */
  failure: string | null;
}

/** Numbers that are being typed ask nothing yet, ms. */
const PAUSE = 600;
const REMEMBERED = 8;
const known = new Map<string, ZoneAnswer>();

function remember({ key, answer }: KeptZone): void {
  known.delete(key);
  known.set(key, answer);
  const [oldest] = known.keys();
  if (known.size > REMEMBERED && oldest !== undefined) known.delete(oldest);
}

type Heard = { done: number } | { answer: ZoneAnswer } | { failure: string };

const job: LongJob<ZoneQuestion, Heard> = {
  makeWorker: () => new Worker(new URL("./zone-worker.ts", import.meta.url)),
  compute: (question, heard) => {
    answerTo(question).then(
      (answer) => heard({ answer }),
      (error: Error) => heard({ failure: error.message }),
    );
  },
  isLast: (part) => !("done" in part),
};

/** @param question null while there is none, or while it is not known yet */
export function useZone(question: ZoneQuestion | null): Worked {
  const [last, setLast] = useState<KeptZone | null>(null);
  const [under, setUnder] = useState<{ key: string; done: number | null; failure: string | null } | null>(
    null,
  );
  const key = question ? zoneKey(question) : null;

  useEffect(() => {
    const before = keptZone();
    if (!before) return;
    remember(before);
    setLast((now) => now ?? before);
  }, []);

  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for the question, by value
  useEffect(() => {
    if (!question || key === null) return;
    const before = known.get(key) ?? (keptZone()?.key === key ? keptZone()?.answer : undefined);
    if (before) {
      setLast({ key, answer: before });
      return;
    }
    let stop = () => {};
    const timer = setTimeout(() => {
      setUnder({ key, done: 0, failure: null });
      stop = startLongJob(job, question, (word) => {
        if ("answer" in word) {
          const zone = { key, answer: word.answer };
          remember(zone);
          keepZone(zone);
          setLast(zone);
          setUnder(null);
        } else
          setUnder({
            key,
            done: "done" in word ? word.done : null,
            failure: "failure" in word ? word.failure : null,
          });
      });
    }, PAUSE);
    return () => {
      clearTimeout(timer);
      stop();
    };
  }, [key]);

  const mine = under?.key === key ? under : null;
  return {
    answer: last?.answer ?? null,
    current: key !== null && last?.key === key,
    done: mine?.done ?? null,
    failure: mine?.failure ?? null,
  };
}
