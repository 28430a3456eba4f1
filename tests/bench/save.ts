/**
 * How long a judge's save takes, from sending to the whole answer, over HTTP against the running program: alone; with
 * 20 judges who each save once a second, then twice a second; and, to know how much it takes, with 20 who all save in the
 * same moment, every two seconds, and with 20 who each save again as soon as they are answered. At a fair of 40 entrants and 5 rounds, with the 20 judges' pages and 30
 * pages of standings open and hearing of every entry. Beside it a bare write of one row, committed to the same disk in the
 * same run, since disks differ more than programs do. Fails above 80 ms at the median of any but these two.
 */
import { mkdtempSync, rmSync } from "node:fs";
import { loadavg } from "node:os";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import { nowAndThen } from "../../app/_ui/live/now-and-then";
import type { FixAnswer, ShotInfo } from "../../lib/api/contracts";
import { inTransaction, migrate, openDatabase } from "../../lib/db";

import { Client } from "../by-http/client";
import { layFair, newJudges } from "../by-http/fair";
import { openPages } from "./crowd/pages";

const LIMIT = 80; // ms
const WARM_UP = 30;
const SAVES = 100;
const SIZE = { entrants: 40, rounds: 5, judges: 20 };
const ONLOOKERS = 30;
/** Saves of each judge in one reading; each shot is corrected about three times in all of them. */
const TURNS = 10;

const url = process.env.FAIRTHROW_TEST_URL;
const signIns = JSON.parse(process.env.FAIRTHROW_TEST_SIGN_INS ?? "[]") as { role: string; code: string }[];
const organiser = signIns.find(({ role }) => role === "organiser");
if (!url || !organiser) throw new Error("Run this by npm run bench: it starts the program.");
const api = `${url.replace(/\/$/, "")}/api/v1`;

const wait = (ms: number) => new Promise((resolve) => setTimeout(resolve, ms));
async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

const quantile = (times: number[], share: number) =>
  times.toSorted((a, b) => a - b)[Math.floor(share * (times.length - 1))] as number;
const ms = (value: number) => `${value.toFixed(1)} ms`;

const slug = `bench-${Date.now()}`;
const base = `/contests/${slug}`;
const place = { latitude: 44.2, longitude: -31.6 };
const by = new Client(api);
await by.signIn(organiser.code);
const { badge } = await by.ask<{ badge: { code: string } }>("POST", "/contests", {
  slug,
  name: slug,
  date: "2031-10-04",
  ...place,
  rounds: SIZE.rounds,
});
await by.signIn(badge.code);
const { shots } = await layFair(by, slug, { ...SIZE, place, bearing: 90 });
const judges: Client[] = [];
for (const code of await newJudges(by, slug, SIZE.judges)) {
  const judge = new Client(api);
  await judge.signIn(code);
  judges.push(judge);
}

/** The newest entry of each shot: the second save of a shot corrects it. */
const newest = new Map<string, string>();
let entered = 0;
/** One save, on the judge's shots in turn. */
async function save(judge: number, turn: number): Promise<number> {
  const own = shots.filter((_, index) => index % SIZE.judges === judge);
  const shot = own[turn % own.length] as ShotInfo;
  const replacesId = newest.get(shot.id);
  const body = {
    fix: {
      outcome: "landed",
      method: "bearing-distance",
      bearing: shot.bearing,
      distance: 60 + (entered++ % 500) / 100,
    },
    ...(replacesId && { replacesId, reason: "Measured again by the benchmark." }),
  };
  return timed(async () => {
    const by = judges[judge] as Client;
    const answer = await by.ask<FixAnswer>("POST", `${base}/shots/${shot.id}/fixes`, body);
    newest.set(shot.id, answer.id);
  });
}

// The first reading is one judge, the pages of the others closed.
const alone: number[] = [];
for (let turn = -WARM_UP; turn < SAVES; turn++) {
  const time = await save((turn + WARM_UP) % SIZE.judges, Math.floor((turn + WARM_UP) / SIZE.judges));
  if (turn >= 0) alone.push(time);
}

const pages = openPages(base, judges, { rounds: SIZE.rounds, onlookers: ONLOOKERS }, nowAndThen);

/**
 * All judges at once. With a `pace` each starts a save every so many ms, nobody in step with another unless `inStep`;
 * without one each as soon as it is answered.
 */
async function together(
  pace: number | null,
  turns: number,
  inStep = false,
): Promise<{ times: number[]; rate: number }> {
  const times: number[] = [];
  const began = performance.now();
  await Promise.all(
    judges.map(async (_, judge) => {
      for (let turn = 0; turn < turns; turn++) {
        if (pace !== null) {
          const share = inStep ? 0 : ((judge * 7) % SIZE.judges) / SIZE.judges;
          const due = began + pace * (turn + share);
          await wait(Math.max(0, due - performance.now()));
        }
        times.push(await save(judge, turn));
      }
    }),
  );
  return { times, rate: (1000 * times.length) / (performance.now() - began) };
}

// In the working folder, so on the disk where the program's own file is by default.
const folder = mkdtempSync(join(process.cwd(), ".bench-"));
const bare: number[] = [];
try {
  const file = `file:${join(folder, "bare.db")}`;
  await migrate(file);
  const db = await openDatabase(file);
  for (let index = -WARM_UP; index < SAVES; index++) {
    const data = { key: `row ${index}`, value: "x" };
    const time = await timed(() => inTransaction(db, (tx) => tx.setting.create({ data })));
    if (index >= 0) bare.push(time);
  }
  await db.$disconnect();
} finally {
  rmSync(folder, { recursive: true, force: true });
}
const reference = quantile(bare, 0.5);
console.log(`A bare write, committed to disk: median ${ms(reference)}.`);

const readings: { what: string; times: number[]; rate?: number }[] = [
  { what: "A judge's save, alone", times: alone },
];
// The pages have just opened; a fair has run for a while.
await together(500, 4);
for (const [what, pace, inStep] of [
  ["20 judges, each once a second", 1000, false],
  ["20 judges, each twice a second", 500, false],
  ["20 judges in the same moment, every two seconds", 2000, true],
  ["20 judges, each again as soon as answered", null, false],
] as const) {
  const before = pages.readings();
  const { times, rate } = await together(pace, TURNS, inStep);
  readings.push({ what: `${what} (pages read anew ${pages.readings() - before} times)`, times, rate });
}
pages.close();

for (const { what, times, rate } of readings)
  console.log(
    `${what}: median ${ms(quantile(times, 0.5))}, 95 % within ${ms(quantile(times, 0.95))}, of ${times.length}` +
      `${rate ? `, ${rate.toFixed(0)} saves a second` : ""}. Ratio ${(quantile(times, 0.5) / reference).toFixed(1)}.`,
  );
console.log(`Load of the machine over the last minute, all of this included: ${loadavg()[0]?.toFixed(1)}.`);
if (readings.slice(0, -2).some(({ times }) => quantile(times, 0.5) > LIMIT)) {
  console.error(`The save is to be answered within ${LIMIT} ms at the median.`);
  process.exitCode = 1;
}
