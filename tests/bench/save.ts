/**
 * How long a judge's save takes, from sending to the whole answer, over HTTP against the running program: alone, and
 * with 20 judges who each save every second or so; beside it a bare write of one row, committed to disk in the same run,
 * since disks differ more than programs do. Fails above 80 ms at the median of either.
 */
import { randomUUID } from "node:crypto";
import { mkdtempSync, rmSync } from "node:fs";
import { join } from "node:path";
import { performance } from "node:perf_hooks";
import type { FixAnswer, ShotInfo } from "../../lib/api/contracts";
import { inTransaction, migrate, openDatabase } from "../../lib/db";

const LIMIT = 80; // ms
const WARM_UP = 30;
const SAVES = 100;
const JUDGES = 20;
/** Saves of each of them, the first to warm up, and ms between two of one judge at most. */
const TURNS = 8;
const PACE = 2000;

const url = process.env.FAIRTHROW_TEST_URL;
const signIns = JSON.parse(process.env.FAIRTHROW_TEST_SIGN_INS ?? "[]") as { role: string; code: string }[];
const judge = signIns.find(({ role }) => role === "judge");
const organiser = signIns.find(({ role }) => role === "organiser");
if (!url || !judge || !organiser) throw new Error("Run this by npm run bench: it starts the program.");
const api = `${url.replace(/\/$/, "")}/api/v1`;

let cookie = "";
async function send(method: string, path: string, body?: unknown, as = cookie): Promise<Response> {
  const response = await fetch(`${api}${path}`, {
    method,
    headers: { "Content-Type": "application/json", "Idempotency-Key": randomUUID(), cookie: as },
    ...(body !== undefined && { body: JSON.stringify(body) }),
  });
  if (!response.ok) throw new Error(`${method} ${path}: ${response.status} ${await response.text()}`);
  return response;
}

async function timed(work: () => Promise<unknown>): Promise<number> {
  const start = performance.now();
  await work();
  return performance.now() - start;
}

const quantile = (times: number[], share: number) =>
  times.toSorted((a, b) => a - b)[Math.floor(share * (times.length - 1))] as number;

async function signIn(code: string) {
  const answer = await send("POST", "/sign-in", { code });
  return { answer, cookie: (answer.headers.get("set-cookie") ?? "").split(";")[0] ?? "" };
}

const signedIn = await signIn(judge.code);
cookie = signedIn.cookie;
const slug = ((await signedIn.answer.json()) as { badge: { contestSlug: string } }).badge.contestSlug;
const { shots } = (await (await send("GET", `/contests/${slug}/shots`)).json()) as { shots: ShotInfo[] };

// Each save is read before the next is sent, as a judge would; on every shot in turn, corrected again and again.
const newest = new Map<string, string | undefined>(shots.map((shot) => [shot.id, shot.fix?.id]));
const saves: number[] = [];
for (let index = -WARM_UP; index < SAVES; index++) {
  const shot = shots[(index + WARM_UP) % shots.length] as ShotInfo;
  const replacesId = newest.get(shot.id);
  const distance = 60 + (index + WARM_UP) / 10;
  const body = {
    fix: { outcome: "landed", method: "bearing-distance", bearing: shot.bearing, distance },
    ...(replacesId && { replacesId, reason: "Measured again by the benchmark." }),
  };
  const time = await timed(async () => {
    const response = await send("POST", `/contests/${slug}/shots/${shot.id}/fixes`, body);
    newest.set(shot.id, ((await response.json()) as FixAnswer).id);
  });
  if (index >= 0) saves.push(time);
}

// Twenty judges, each with a badge and a chain of entries of its own; nobody starts in step with another.
const asOrganiser = (await signIn(organiser.code)).cookie;
const judges: string[] = [];
for (let index = 1; index <= JUDGES; index++) {
  const badge = { role: "judge", label: `Bench judge ${index}` };
  const made = await send("POST", `/contests/${slug}/badges`, badge, asOrganiser);
  judges.push((await signIn(((await made.json()) as { code: string }).code)).cookie);
}
const together: number[] = [];
await Promise.all(
  judges.map(async (own, index) => {
    const shot = shots[index % shots.length] as ShotInfo;
    let replacesId: string | undefined;
    for (let turn = 0; turn < TURNS; turn++) {
      await new Promise((resolve) =>
        setTimeout(resolve, ((index * 7 + turn * 3) % JUDGES) * (PACE / JUDGES)),
      );
      const body = {
        fix: {
          outcome: "landed",
          method: "bearing-distance",
          bearing: shot.bearing,
          distance: 60 + (turn + index / JUDGES) / 100,
        },
        ...(replacesId && { replacesId, reason: "Measured again by the benchmark." }),
      };
      const time = await timed(async () => {
        const answer = await send("POST", `/contests/${slug}/shots/${shot.id}/fixes`, body, own);
        replacesId = ((await answer.json()) as FixAnswer).id;
      });
      if (turn > 0) together.push(time);
    }
  }),
);

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

const ms = (value: number) => `${value.toFixed(1)} ms`;
const median = quantile(saves, 0.5);
console.log(
  `A judge's save: median ${ms(median)}, 95 % within ${ms(quantile(saves, 0.95))}, of ${SAVES}. ` +
    `A bare write: median ${ms(quantile(bare, 0.5))}. Ratio ${(median / quantile(bare, 0.5)).toFixed(1)}.`,
);
const crowded = quantile(together, 0.5);
console.log(
  `With ${JUDGES} judges at once: median ${ms(crowded)}, 95 % within ${ms(quantile(together, 0.95))}, of ${together.length}.`,
);
if (Math.max(median, crowded) > LIMIT) {
  console.error(`The save is to be answered within ${LIMIT} ms at the median.`);
  process.exitCode = 1;
}
