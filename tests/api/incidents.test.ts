/** Incidents: who sees what, the permit that falls, the zone as it was drawn then, the hold, and words that can be erased. */
import { beforeAll, beforeEach, expect, test } from "vitest";
import type { IncidentInfo, RangeView } from "@/lib/api/contracts";
import { allSheets, expirePeople } from "@/lib/contest";
import { groundDirect } from "@/lib/earth";
import { linesFor } from "@/lib/inspection";
import { type Answer, bearingFix, expecting, type Fair, MIDDLE, newFair, rowCounts } from "./fair";

let fair: Fair;
let heron: string;
let onion: string;
/** How far the zone of both reaches ahead of the firing point, m. */
let ahead: number;
let nominal: number;

beforeAll(async () => {
  fair = await newFair(2);
  [heron, onion] = fair.machineIds as [string, string];
  await officer(200, "PUT", "/air", {
    air: { wind: { speed: 5, gust: 8, height: 10 } },
    reason: "As always",
  });
  await officer(201, "POST", "/wind-readings", { speed: 2, gust: 4, direction: 250, observer: "Line post" });
  await allSheets(fair.db, fair.contestId);
  for (const id of fair.machineIds) await permit(id);
  const { features } = await expecting(200, "GET", `${fair.base}/zones`);
  const { exclusion, accuracy } = features[0].properties;
  nominal = features[0].properties.nominal;
  ahead = exclusion.forward + accuracy;
});

const officer = (status: number, method: string, path: string, body?: unknown): Promise<Answer> =>
  fair.as("safety-officer")(status, method, path, body);
const judge = (status: number, method: string, path: string, body?: unknown): Promise<Answer> =>
  fair.as("judge")(status, method, path, body);
const range = (): Promise<RangeView> => expecting(200, "GET", `${fair.base}/range`);
const read = (id: string): Promise<IncidentInfo> => officer(200, "GET", `/incidents/${id}`);

async function permit(machineId: string): Promise<void> {
  const machine = `/machines/${machineId}`;
  const { machine: placed, revisions, current } = await officer(200, "GET", machine);
  const [{ id: revisionId }] = revisions;
  const lines = linesFor({ kind: "measured" } as never).map(({ id }) => ({ id, finding: "meets", note: "" }));
  const inspected = await officer(201, "POST", `${machine}/inspections`, {
    revisionId,
    lines,
    outcome: "meets",
  });
  const limits = {
    wind: { speed: 5, gust: 8, height: 10 },
    bearing: 1,
    projectileMass: { least: 3, most: 3 },
    counterweightMass: null,
    pressure: null,
  };
  await officer(201, "POST", `${machine}/permits`, {
    revisionId,
    firingPointId: placed.firingPointId,
    bearing: placed.bearing,
    sheetId: current.sheetId,
    inspectionId: inspected.id,
    limits,
  });
}
const state = async (machineId: string) => {
  const { permits } = await officer(200, "GET", `/machines/${machineId}/clearance`);
  return [permits[0].state, ...permits[0].falls.map(({ cause }: Answer) => cause)];
};

const QUIET = { machineId: "", part: "sling-or-cord", hurt: "nobody" };
const about = (machineId: string, more: object = {}) => ({ ...QUIET, machineId, ...more });
const lies = (distance: number, bearing = 90) => ({ found: "piece", fix: bearingFix(distance, bearing) });

beforeEach(async () => {
  const { holds } = await range();
  if (holds.length > 0) await officer(200, "POST", "/range/lift", { holds: holds.map(({ id }) => id) });
});

test("a judge enters one: that machine's permit falls, the range stays as it is, and the scorebook has no more than that", async () => {
  const words = { account: "Edda Holm was struck on the hand by the sling" };
  const receipt = await judge(201, "POST", "/incidents", about(heron, words));
  expect(receipt).toMatchObject({ number: 1, machineName: "Machine 1", piece: null, held: false });
  expect(await state(heron)).toEqual(["fallen", "incident"]);
  expect(await state(onion)).toEqual(["stands"]);
  expect((await range()).mode).toBe("cold");
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=10`);
  const own = entries.filter(({ act }: Answer) => act.startsWith("incident-"));
  expect(own.map(({ act }: Answer) => act)).toEqual(["incident-noted", "incident-entered"]);
  for (const { body } of own)
    expect(Object.keys(JSON.parse(body)).sort()).toEqual([
      "act",
      "at",
      "badge",
      "content",
      "contest",
      "machine",
      "sequence",
      "subject",
    ]);
  // Nowhere that is read without a badge, nor by a team or a judge.
  const path = `/incidents/${receipt.id}`;
  for (const asked of ["/incidents", path, `${path}/replays`]) {
    await expecting(401, "GET", `${fair.base}${asked}`);
    for (const role of ["judge", "team", "rival"] as const) await fair.as(role)(403, "GET", asked);
  }
  const everything = JSON.stringify(await fair.db.idempotency.findMany()) + JSON.stringify(entries);
  expect(everything).not.toContain("Edda");
  const { words: written, stood } = await read(receipt.id);
  expect(written).toMatchObject([{ kind: "account", text: words.account, keepUntil: "2034-10-04" }]);
  expect(stood).toMatchObject({ revision: 1, firingPointNumber: 1, bearing: 90, margin: 1.2 });
});

test("a piece counts as inside only with all of its uncertainty; else the range holds, and the zone it would take is told", async () => {
  const meant = { found: "projectile", place: "impact", fix: bearingFix(nominal) };
  const { id } = await judge(201, "POST", "/incidents", about(onion, { piece: meant }));
  expect((await range()).mode).toBe("cold");
  const near = await judge(201, "POST", `/incidents/${id}/pieces`, lies(ahead - 1));
  expect(near).toMatchObject({ held: true, piece: { outside: true, zone: { verdict: "unsure" } } });
  const held = await range();
  expect(held.mode).toBe("hold");
  expect(held.holds[0]?.why).toBe("An incident was entered for Machine 2: the safety officer looks into it.");
  await judge(403, "POST", "/range/lift", { holds: held.holds.map((hold) => hold.id) });
  const far = { ...lies(1.5 * ahead), replacesId: near.piece.id };
  expect((await judge(201, "POST", `/incidents/${id}/pieces`, far)).piece.zone.inside).toBeCloseTo(
    -0.5 * ahead,
    0,
  );
  await judge(409, "POST", `/incidents/${id}/pieces`, { ...far, fix: null });
  const found = await read(id);
  expect(found).toMatchObject({ pieces: 2, outside: 1, beyondModel: true });
  const { zone, uncertainty, latitude, longitude } = found.pieceList[2] as IncidentInfo["pieceList"][number];
  expect({ latitude, longitude }).toEqual(groundDirect(MIDDLE, 90, 1.5 * ahead, 50));
  // The machine may stand off by the accuracy whatever the factor is.
  const { accuracy = 0, reach } = found.stood ?? {};
  expect(zone?.factor).toBeCloseTo((1.5 * ahead + (uncertainty ?? 0) - accuracy) / (reach?.[0] ?? 0), 2);
  expect(found.needed?.exclusion.forward).toBeGreaterThan(1.5 * ahead);
  expect(found.needed?.standClear.map(({ name }) => name)).toEqual(["Firing point 1"]);
  expect(found.sameKind).toMatchObject([{ machineName: "Machine 1", permit: "fallen" }]);
  const { replays } = await officer(200, "GET", `/incidents/${id}/replays`);
  expect(replays.map(({ replay }: Answer) => replay.verdict)).toEqual(["explained", "unexplained"]);
});

test("is held against the machine as it stood when it was seen, and a late one says how old it is", async () => {
  await fair.lay("PATCH", `/machines/${heron}/placement`, { firingPointId: fair.firingPointId, bearing: 90 });
  const before = new Date();
  await fair.lay("PATCH", `/machines/${heron}/placement`, {
    firingPointId: fair.firingPointId,
    bearing: 100,
  });
  await allSheets(fair.db, fair.contestId);
  const late = about(heron, { observedAt: before.toISOString(), witness: "Line post", piece: lies(20) });
  const { id } = await judge(201, "POST", "/incidents", late);
  expect((await read(id)).stood?.bearing).toBe(90);
  const now = await judge(201, "POST", `/incidents/${id}/reports`, {
    part: "trigger",
    hurt: "nobody",
    observedAt: new Date().toISOString(),
    reason: "It was after the machine had been turned",
  });
  expect(now.held).toBe(false);
  expect(await read(id)).toMatchObject({
    part: "trigger",
    witness: "Line post",
    stood: { bearing: 100 },
    reports: [{ part: "trigger" }, { part: "sling-or-cord" }],
  });
  const old = { observedAt: new Date(Date.now() - 40 * 60_000).toISOString() };
  // It stood nowhere then, as far as the program knows: nobody can tell, so it counts as outside.
  const nowhere = await judge(201, "POST", "/incidents", about(heron, { ...old, piece: lies(20) }));
  expect(nowhere).toMatchObject({ held: true, piece: { zone: null, outside: true } });
  expect((await range()).holds[0]?.why).toMatch(/It was seen 40 minutes before it was entered here\.$/);
});

test("somebody who may be hurt holds the range now, and not an hour later", async () => {
  const hour = new Date(Date.now() - 3_600_000).toISOString();
  const { held } = await judge(
    201,
    "POST",
    "/incidents",
    about(onion, { hurt: "somebody", observedAt: hour }),
  );
  expect([held, (await range()).mode]).toEqual([false, "cold"]);
  await judge(201, "POST", "/incidents", about(onion, { hurt: "unknown" }));
  expect((await range()).mode).toBe("hold");
});

test("sent twice it is one, and a wrong field leaves nothing", async () => {
  const sent = {
    as: fair.tokens.judge,
    body: about(onion, { piece: lies(2 * ahead) }),
    key: "one-and-the-same-key",
  };
  const first = await expecting(201, "POST", `${fair.base}/incidents`, sent);
  await officer(200, "POST", "/range/lift", { holds: (await range()).holds.map(({ id }) => id) });
  expect(await expecting(201, "POST", `${fair.base}/incidents`, sent)).toEqual(first);
  expect((await range()).mode).toBe("cold");
  const before = await rowCounts(fair.db);
  for (const [wrong, field] of [
    [{ part: "elbow" }, "part"],
    [{ hurt: undefined }, "hurt"],
    [{ piece: { found: "piece", fix: { outcome: "foul" } } }, "piece.fix.outcome"],
    [{ observedAt: "2999-01-01T00:00:00Z" }, "observedAt"],
  ] as const) {
    const problem = await judge(422, "POST", "/incidents", about(onion, wrong));
    expect(problem.errors[0].field).toBe(field);
  }
  await judge(422, "POST", `/incidents/${first.id}/pieces`, { found: "piece", fix: null });
  expect(await rowCounts(fair.db)).toEqual(before);
});

test("what was written is erased by hand or on its day, its hash with it; nothing else can be changed", async () => {
  const { id } = await judge(201, "POST", "/incidents", about(onion));
  const person = { kind: "person", name: "Edda Holm", text: "Bruised hand", keepUntil: "2040-01-01" };
  await officer(201, "POST", `/incidents/${id}/words`, person);
  await officer(422, "POST", `/incidents/${id}/words`, { ...person, keepUntil: "2020-01-01" });
  expect((await read(id)).words).toMatchObject([{ name: "Edda Holm", text: "Bruised hand", erasedAt: null }]);
  const where = { id: (await read(id)).words[0]?.id ?? "" };
  const change = (data: object) => fair.db.incidentWords.update({ where, data });
  await expect(change({ text: "Nothing" })).rejects.toThrow();
  await expect(
    change({ name: null, text: null, salt: null, erasedAt: new Date(), kind: "account" }),
  ).rejects.toThrow();
  await expect(fair.db.incidentWords.delete({ where })).rejects.toThrow();
  for (const table of ["incident", "incidentReport"] as const)
    await expect(
      (fair.db[table] as never as { deleteMany(): Promise<unknown> }).deleteMany(),
    ).rejects.toThrow();
  expect(await officer(200, "POST", `/incidents/${id}/words/erase`, {})).toEqual({ erased: 1 });
  expect((await read(id)).words).toMatchObject([{ name: null, text: null, keepUntil: "2040-01-01" }]);
  // One whose day is over.
  const row = await fair.db.incidentWords.findFirstOrThrow();
  await fair.db.incidentWords.create({
    data: { ...row, id: "over", text: "Old", name: null, erasedAt: null, keepUntil: "2020-01-01" },
  });
  expect(await expirePeople(fair.db)).toBe(1);
  expect(await fair.db.incidentWords.findUnique({ where: { id: "over" } })).toMatchObject({
    text: null,
    salt: null,
  });
});
