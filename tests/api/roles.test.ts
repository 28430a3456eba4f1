/**
 * Every line of the role table, by every route that asks it: who may, can; every wrong role, nobody, a badge of another
 * contest, another team and a badge that is not in force are told so, and leave no trace.
 */
import { readFileSync } from "node:fs";
import { beforeAll, describe, expect, test } from "vitest";
import type { Role } from "@/lib/api/contracts";
import { ROUTES } from "@/lib/api/routes";
import { type Act, allSheets, MAY } from "@/lib/contest";
import { sha256 } from "@/lib/contest/scorebook";
import type { Database } from "@/lib/db";
import { contestBody, expecting, type Fair, newFair, send } from "./fair";
import { layTries, type Try } from "./role-tries";

const ACTS = Object.keys(MAY) as Act[];
const ROLES = ["organiser", "safety-officer", "judge", "team"] as const satisfies Role[];
const SENDERS = [...ROLES, "rival"] as const;
type Sender = (typeof SENDERS)[number];

let fair: Fair;
let tries: Record<Act, Try[]>;
/** Sessions that may nothing, of each role: of another contest; of badges revoked and past their end; replaced ones. */
const elsewhere = {} as Record<Role, string>;
const ended: { how: string; words: RegExp; tokens: Record<Role, string> }[] = [];

beforeAll(async () => {
  fair = await newFair(2);
  tries = await layTries(fair);
  const other = { as: fair.tokens.organiser, body: contestBody("next-year") };
  const { contest } = await expecting(201, "POST", "/contests", other);
  const hourAgo = new Date(Date.now() - 3600_000);
  for (const role of ROLES) elsewhere[role] = await newSession(role, contest.id, {}, null);
  for (const [how, words, badge, endedAt] of [
    ["revoked", /^This badge was revoked at/, { revokedAt: hourAgo }, null],
    ["past its end", /^This badge ended at/, { endsAt: hourAgo }, null],
    ["replaced", /^Another device took this one's place/, {}, hourAgo],
  ] as const) {
    const tokens = {} as Record<Role, string>;
    for (const role of ROLES) tokens[role] = await newSession(role, fair.contestId, badge, endedAt);
    ended.push({ how, words, tokens });
  }
  await allSheets(fair.db, fair.contestId);
});

/** As badge-ends.test.ts comes to the same by the API. A team's has the entrant whose things are tried. */
async function newSession(
  role: Role,
  contestId: string,
  badge: { revokedAt?: Date; endsAt?: Date },
  endedAt: Date | null,
): Promise<string> {
  const token = `${role} ${contestId} ${Object.keys(badge)} ${endedAt}`;
  const id = sha256(token).slice(0, 20);
  const createdAt = new Date();
  const entrantId = role === "team" ? (fair.entrantIds[0] ?? null) : null;
  await fair.db.badge.create({
    data: { id, contestId, role, label: `Odd ${role}`, entrantId, codeHash: sha256(id), createdAt, ...badge },
  });
  const expiresAt = new Date(Date.now() + 3600_000);
  const value = encodeURIComponent(token);
  await fair.db.session.create({
    data: { tokenHash: sha256(value), badgeId: id, createdAt, expiresAt, endedAt },
  });
  return value;
}

const grantOf = (act: Act, role: Role) => (MAY[act] as Partial<Record<Role, true | "own">>)[role];
function mayDo(act: Act, sender: Sender, attempt: Try): boolean {
  const grant = grantOf(act, sender === "rival" ? "team" : sender);
  return grant === true || (grant === "own" && (sender === "team" || attempt.everyTeam === true));
}
const addressOf = ({ whole, path }: Try) => `${whole ? "" : fair.base}${path()}`;
const sending = (attempt: Try, as: string | null) => {
  const body = attempt.body?.();
  const headers = { "content-type": "application/octet-stream" };
  return typeof body === "string" ? { as, text: body, headers } : { as, body };
};

/** Every row of every table, and the heads of the scorebooks. Sheets are what the program computes by itself. */
async function stored(db: Database): Promise<unknown> {
  const schema = readFileSync("prisma/schema.prisma", "utf8");
  const tables = [...schema.matchAll(/^model (\w+)/gm)].map(([, name]) => name);
  const counts = tables.map((name) => `SELECT '${name}' AS "name", count(*) AS "rows" FROM "${name}"`);
  const rows = await db.$queryRawUnsafe<{ name: string; rows: bigint }[]>(counts.join(" UNION ALL "));
  const heads = await db.$queryRawUnsafe<{ hash: string }[]>(
    `SELECT "hash" FROM "ScorebookEntry" ORDER BY "hash"`,
  );
  const ranges = await db.rangeState.findMany({ orderBy: { contestId: "asc" } });
  return {
    rows: Object.fromEntries(rows.map((each) => [each.name, Number(each.rows)])),
    book: sha256(JSON.stringify(heads)),
    ranges: JSON.stringify(ranges),
  };
}

test("every act of the table and every route that asks it is tried here, and nothing else writes", () => {
  expect(Object.keys(tries).sort()).toEqual([...ACTS].sort());
  const asked = ACTS.flatMap((act) =>
    tries[act].map(
      (attempt) => `${attempt.method} ${addressOf(attempt).replace(fair.base, "/contests/x")}`.split("?")[0],
    ),
  );
  const templates = ROUTES.filter(({ who }) => who).map(({ method, path }) => ({
    named: `${method.toUpperCase()} ${path}`,
    pattern: new RegExp(`^${method.toUpperCase()} ${path.replaceAll(/\{\w+\}/g, "[^/]+")}$`),
  }));
  const untried = templates.filter(({ pattern }) => !asked.some((one) => pattern.test(one ?? "")));
  expect(untried.map(({ named }) => named)).toEqual([]);
  // Whoever sends an entry's secret is its team: entries.test.ts.
  const open = ROUTES.filter(({ method, who, bearer }) => method !== "get" && !who && !bearer).map(
    ({ path }) => path,
  );
  expect(open.sort()).toEqual(["/dispersion", "/hazard", "/replay", "/setup", "/sign-in", "/sign-out"]);
});

test.each(ACTS)("%s: nobody who may not, and nothing is left of the try", async (act) => {
  const before = await stored(fair.db);
  const right = ROLES.filter((role) => grantOf(act, role));
  for (const attempt of tries[act]) {
    const refused = async (
      who: string,
      as: string | null,
      status: number,
      words: RegExp,
      ...codes: string[]
    ) => {
      const response = await send(attempt.method, addressOf(attempt), sending(attempt, as));
      const problem = await response.json();
      const where = `${attempt.method} ${addressOf(attempt)} by ${who}: ${problem.detail}`;
      expect(response.status, where).toBe(status);
      expect(codes, where).toContain(problem.code);
      expect(problem.detail, where).toMatch(words);
    };
    const wrong = SENDERS.filter((each) => !mayDo(act, each, attempt));
    for (const each of wrong) await refused(each, fair.tokens[each], 403, /^Only .* may /, "not-allowed");
    await refused("nobody", null, 401, /^Sign in/, "sign-in");
    for (const role of right) {
      if (!attempt.whole)
        await refused(`${role} elsewhere`, elsewhere[role], 403, /another contest/, "other-contest");
      for (const { how, words, tokens } of ended) {
        // What it had seen before it may deliver: held-fixes.test.ts.
        const status = act === "record a fix" ? 403 : 401;
        await refused(`${role} ${how}`, tokens[role], status, words, "sign-in", "badge-ended");
      }
    }
  }
  expect(await stored(fair.db)).toEqual(before);
  expect((await expecting(200, "GET", `${fair.base}/range`)).mode).toBe("cold");
});

describe("who may", () => {
  // What was read is signed before the others change it.
  const first: Act = "sign and withdraw firing permits";
  test.each([first, ...ACTS.filter((act) => act !== first)])("%s", async (act) => {
    for (const attempt of tries[act].filter(({ refusedOnly }) => !refusedOnly)) {
      const senders = SENDERS.filter((each) => mayDo(act, each, attempt));
      for (const sender of attempt.once ? senders.slice(0, 1) : senders) {
        const response = await send(
          attempt.method,
          addressOf(attempt),
          sending(attempt, fair.tokens[sender]),
        );
        const said = `${attempt.method} ${addressOf(attempt)} by ${sender}: ${await response.clone().text()}`;
        expect(response.ok, said).toBe(true);
        await response.body?.cancel();
      }
    }
  });
});

test("reading what is public needs no badge, and shows no dimensions", async () => {
  for (const path of ["", "/standings", "/shots", "/scorebook"]) {
    const answer = await expecting(200, "GET", `${fair.base}${path}`);
    expect(JSON.stringify(answer)).not.toContain("releaseSpeed");
  }
});
