/** Inspections and firing permits: what may be written down, what a permit rests on, and how it falls and waits. */
import { beforeAll, beforeEach, describe, expect, onTestFinished, test, vi } from "vitest";
import { allSheets, permitStanding } from "@/lib/contest";
import { linesFor } from "@/lib/inspection";
import { type Answer, bearingFix, declaration, expecting, type Fair, newFair, rowCounts } from "./fair";

let fair: Fair;
beforeAll(async () => {
  fair = await newFair(4);
  await fair.as("safety-officer")(200, "PUT", "/air", {
    air: { wind: { speed: 5, gust: 8, height: 10 } },
    reason: "As always here",
  });
  await calm();
});

const officer = (status: number, method: string, path: string, body?: unknown) =>
  fair.as("safety-officer")(status, method, path, body);
const calm = () => readWind(5);
const readWind = (gust: number) =>
  officer(201, "POST", "/wind-readings", { speed: 3, gust, direction: 250, observer: "Line post" });

const lines = () =>
  linesFor({ kind: "measured" } as never).map(({ id }) => ({ id, finding: "meets", note: "" }) as Answer);
const page = (machine: number) =>
  expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[machine]}`, { as: fair.tokens.judge });
const revisionId = async (machine: number) => (await page(machine)).revisions[0].id;
const inspect = async (machine: number, change: object = {}, status = 201): Promise<Answer> =>
  officer(status, "POST", `/machines/${fair.machineIds[machine]}/inspections`, {
    revisionId: await revisionId(machine),
    lines: lines(),
    outcome: "meets",
    ...change,
  });

/** The newest of an act; sheets are entered meanwhile. */
async function bookEntry(act: string): Promise<string> {
  const { entries } = await expecting(200, "GET", `${fair.base}/scorebook?limit=20`);
  return entries.find((entry: Answer) => entry.act === act)?.body ?? "{}";
}

const LIMITS = {
  wind: { speed: 5, gust: 8, height: 10 },
  bearing: 1,
  projectileMass: { least: 3, most: 3 },
  counterweightMass: null,
  pressure: null,
};

/** As a safety officer who reads the page signs. */
async function sign(machine: number, change: object = {}, status = 201): Promise<Answer> {
  const { machine: placed, revisions, current } = await page(machine);
  const { inspections } = await clearance(machine);
  return officer(status, "POST", `/machines/${placed.id}/permits`, {
    revisionId: revisions[0].id,
    firingPointId: placed.firingPointId,
    bearing: placed.bearing,
    sheetId: current.sheetId,
    inspectionId: inspections[0]?.id ?? "none",
    limits: LIMITS,
    ...change,
  });
}
const clearance = (machine: number) =>
  expecting(200, "GET", `${fair.base}/machines/${fair.machineIds[machine]}/clearance`, {
    as: fair.tokens.judge,
  });
const standing = (machine: number) =>
  permitStanding(fair.db, fair.contestId, fair.machineIds[machine] as string);
const reasons = async (machine: number) => {
  const found = await standing(machine);
  return found.stands ? [] : found.reasons;
};
const causes = async (machine: number) =>
  (await clearance(machine)).permits[0].falls.map(({ cause }: Answer) => cause);

describe("an inspection", () => {
  test.each<[string, () => object, string, string]>([
    ["a line is missing", () => ({ lines: lines().slice(1) }), "lines", "Structure and joints"],
    [
      "a line stands twice",
      () => ({ lines: [...lines(), lines()[0]] }),
      `lines.${lines().length}.id`,
      "twice",
    ],
    [
      "a line of another kind",
      () => ({ lines: [...lines(), { id: "sling", finding: "meets" }] }),
      `lines.${lines().length}.id`,
      "sling",
    ],
    [
      "a finding without a note",
      () => ({ lines: [{ ...lines()[0], finding: "not-applicable" }, ...lines().slice(1)] }),
      "lines.0.note",
      "why this line does not apply",
    ],
    [
      "meets it though a line fails",
      () => ({
        lines: [{ ...lines()[0], finding: "fails", note: "A bolt is missing" }, ...lines().slice(1)],
      }),
      "outcome",
      "refuse",
    ],
    [
      "meets it though a line has a limit",
      () => ({ lines: [{ ...lines()[0], finding: "limit", note: "Dry only" }, ...lines().slice(1)] }),
      "outcome",
      "limits",
    ],
    ["limits that nobody wrote", () => ({ outcome: "meets-with-limits" }), "limits", "limits"],
    ["refused without a word", () => ({ outcome: "refused" }), "limits", "why"],
    [
      "a number that is off",
      () => ({ measured: [{ path: "machine.releaseSpeed", value: 26 }] }),
      "outcome",
      "new revision",
    ],
    [
      "a number that is not declared",
      () => ({ measured: [{ path: "machine.longArm", value: 4 }] }),
      "measured.0.path",
      "longArm",
    ],
    ["in the future", () => ({ inspectedAt: "2100-01-01T00:00:00Z" }), "inspectedAt", "future"],
  ])("refused: %s", async (_, change, field, words) => {
    const before = await rowCounts(fair.db);
    const { errors } = await inspect(0, change(), 422);
    expect(errors[0].field).toBe(field);
    expect(errors[0].message).toContain(words);
    expect(await rowCounts(fair.db)).toEqual(before);
  });

  test("is of the newest revision, and what it says stays out of the scorebook, which has its hash", async () => {
    const limits = "Only with the wheels chocked";
    const noted = { ...lines()[0], finding: "limit", note: "Loose wedge of the left leg" };
    const made = await inspect(0, {
      lines: [noted, ...lines().slice(1)],
      outcome: "meets-with-limits",
      limits,
      measured: [{ path: "projectile.mass", value: 3 }],
      inspectedAt: "2026-01-01T09:30:00Z",
      witness: "Second inspector",
    });
    expect(made).toMatchObject({ revision: 1, outcome: "meets-with-limits", limits, by: "Safety officer" });
    expect(made.inspectedAt).toBe("2026-01-01T09:30:00.000Z");
    expect(made.measured).toEqual([{ path: "projectile.mass", declared: 3, value: 3 }]);
    const text = await bookEntry("machine-inspected");
    const body = JSON.parse(text);
    expect(body).toMatchObject({ outcome: "meets-with-limits", limited: [noted.id], fails: [] });
    expect(body.content).toMatch(/^[0-9a-f]{64}$/);
    expect(text).not.toContain("wedge");
    const problem = await inspect(0, { revisionId: "another" }, 409);
    expect(problem.code).toBe("revision-changed");
  });

  test("a number that is off becomes a new revision in one step, with everything else as declared", async () => {
    const path = `/machines/${fair.machineIds[0]}/measured-revisions`;
    const before = await revisionId(0);
    const measured = [
      { path: "machine.releaseSpeed", value: 26 },
      { path: "projectile.mass", value: 3 },
    ];
    const within = await officer(422, "POST", path, { revisionId: before, measured: measured.slice(1) });
    expect(within.detail).toContain("within its declared tolerance");
    const impossible = { path: "machine.releaseSpeed", value: -3 };
    await officer(422, "POST", path, { revisionId: before, measured: [impossible] });
    const made = await officer(201, "POST", path, { revisionId: before, measured });
    expect(made.number).toBe(2);
    expect(made.note).toContain("As measured");
    expect(made.declaration).toEqual({
      ...declaration(26),
      machine: { ...declaration(26).machine, releaseSpeed: 26 },
      projectile: expect.objectContaining({ mass: 3, diameter: 0.2 }),
    });
    await officer(409, "POST", path, { revisionId: before, measured });
    await allSheets(fair.db, fair.contestId);
    expect((await page(0)).current).toMatchObject({ state: "current", revision: 2 });
    await inspect(0, { measured });
  });
});

describe("a permit", () => {
  test("nothing goes hot before one is signed", async () => {
    expect(await reasons(1)).toEqual(["No firing permit has been signed for Machine 2."]);
  });

  test("rests on an inspection of this revision that did not refuse it", async () => {
    expect((await sign(1, {}, 409)).code).toBe("not-inspected");
    await inspect(1, { outcome: "refused", limits: "The trigger lets go by itself" });
    expect((await sign(1, {}, 409)).code).toBe("refused");
    await inspect(1, { outcome: "meets-with-limits", limits: "Two people at the winch" });
    expect((await sign(1, {}, 422)).errors[0].field).toBe("conditions");
    // Signed on paper while nothing else worked: when, and who saw it, stay with it.
    const paper = { signedAt: new Date(Date.now() - 1800_000).toISOString(), witness: "Line post" };
    const ahead = { ...paper, signedAt: new Date(Date.now() + 3600_000).toISOString() };
    const conditions = "Two people at the winch";
    expect((await sign(1, { conditions, paper: ahead }, 422)).errors[0].field).toBe("paper.signedAt");
    expect(await sign(1, { conditions, paper })).toMatchObject({ paper, state: "stands" });
    expect(await standing(1)).toMatchObject({ stands: true, permit: { state: "stands", falls: [] } });
  });

  test.each<[string, object, number, string]>([
    ["another revision than was read", { revisionId: "another" }, 409, "revision-changed"],
    ["another bearing than was read", { bearing: 91 }, 409, "placed-meanwhile"],
    ["another sheet than was read", { sheetId: "another" }, 409, "sheet-changed"],
    ["another inspection than was read", { inspectionId: "another" }, 409, "not-inspected"],
    ["stronger wind", { limits: { ...LIMITS, wind: { speed: 5, gust: 9, height: 10 } } }, 422, "limits.wind"],
    ["wider than aimed", { limits: { ...LIMITS, bearing: 6 } }, 422, "limits.bearing"],
    [
      "lighter projectiles",
      { limits: { ...LIMITS, projectileMass: { least: 2.5, most: 3 } } },
      422,
      "limits.projectileMass",
    ],
    ["a part it has not", { limits: { ...LIMITS, pressure: 4e5 } }, 422, "limits.pressure"],
    ["less wind than blows", { limits: { ...LIMITS, wind: { speed: 2, gust: 4, height: 10 } } }, 409, "wind"],
  ])("refused: %s", async (_, change, status, what) => {
    const before = await rowCounts(fair.db);
    const problem = await sign(1, change, status);
    expect(status === 409 ? problem.code : problem.errors[0].field).toBe(what);
    expect(await rowCounts(fair.db)).toEqual(before);
  });

  test("a team sees its own, and no other's", async () => {
    const own = await fair.as("rival")(200, "GET", "/clearance");
    expect(own.machines.map(({ machineName }: Answer) => machineName)).toEqual(["Machine 2"]);
    const all = await fair.as("judge")(200, "GET", "/clearance");
    expect(all.machines).toHaveLength(4);
    expect(all.machines[1]).toMatchObject({
      inspection: { outcome: "meets-with-limits" },
      permit: { state: "stands", number: 1 },
    });
    await fair.as("rival")(403, "GET", `/machines/${fair.machineIds[0]}/clearance`);
  });
});

describe("it falls by itself", () => {
  beforeEach(async () => {
    await inspect(2);
    await sign(2);
    expect(await reasons(2)).toEqual([]);
  });
  const placed = (bearing: number) =>
    fair.lay("PATCH", `/machines/${fair.machineIds[2]}/placement`, {
      firingPointId: fair.firingPointId,
      bearing,
    });

  test("taken back, once", async () => {
    const [{ id }] = (await clearance(2)).permits;
    const path = `/permits/${id}/withdrawal`;
    const reason = "Somebody stands in the lane";
    expect(await officer(201, "POST", path, { reason })).toMatchObject({ state: "fallen" });
    expect(await reasons(2)).toEqual([`The safety officer took it back: ${reason}`]);
    expect((await officer(409, "POST", path, { reason })).code).toBe("already-withdrawn");
    await officer(404, "POST", "/permits/none/withdrawal", { reason });
  });

  test("turned away and back, and not within its tolerance", async () => {
    await placed(90.9);
    expect(await reasons(2)).toEqual([]);
    await placed(92);
    await placed(90);
    expect(await causes(2)).toEqual(["bearing"]);
  });

  test("another revision", async () => {
    await fair.lay("POST", `/machines/${fair.machineIds[2]}/revisions`, { declaration: declaration(24) });
    await allSheets(fair.db, fair.contestId);
    expect(await causes(2)).toEqual(["revision", "sheet"]);
    // Only the revision that was inspected can be signed for.
    expect((await sign(2, {}, 409)).code).toBe("not-inspected");
  });

  test("another policy, and the old one again", async () => {
    const { policy } = await expecting(200, "GET", fair.base);
    const set = (margin: number) =>
      officer(200, "PUT", "/policy", { policy: { ...policy, margin }, reason: "Tried" });
    await set(1.5);
    await set(policy.margin);
    await allSheets(fair.db, fair.contestId);
    expect(await causes(2)).toEqual(["policy"]);
  });

  test("refused afterwards", async () => {
    await inspect(2, { outcome: "refused", limits: "A crack in the frame" });
    expect(await causes(2)).toEqual(["inspection"]);
  });

  test("a gust beyond the limit, also once it has calmed down", async () => {
    await readWind(8.5);
    expect(await causes(2)).toContain("wind");
    const [{ sheetId }] = (await clearance(2)).permits;
    expect((await sign(2, { sheetId }, 409)).code).toBe("wind");
    await calm();
    expect(await causes(2)).toEqual(["wind"]);
  });

  test("it waits while nobody knows the wind, and stands again once it is read", async () => {
    vi.useFakeTimers({ toFake: ["Date"], now: Date.now() + 40 * 60_000 });
    onTestFinished(() => void vi.useRealTimers());
    expect(await reasons(2)).toEqual(["The last reading of the wind has expired: read the wind again."]);
    expect((await clearance(2)).permits[0].state).toBe("waits");
    await calm();
    expect(await reasons(2)).toEqual([]);
  });
});

describe("the alarm", () => {
  /** Judged by the worker threads, so it is waited for. */
  async function settled(machine: number): Promise<string[]> {
    for (let tries = 0; tries < 200; tries++) {
      const found = await causes(machine);
      if (!found.includes("alarm-pending")) return found;
      await new Promise((resolve) => setTimeout(resolve, 20));
    }
    throw new Error("The mark was never judged.");
  }

  test("a mark that was to be expected leaves the permit, one beyond the worst throw fells it for good", async () => {
    await inspect(3);
    await sign(3);
    const { current } = await page(3);
    const { nominal, worst } = current.sheet;
    const { shots } = await fair.lay("POST", "/rounds", {});
    const shot = shots.find(({ machineId }: Answer) => machineId === fair.machineIds[3]);
    const first = await fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, {
      fix: bearingFix(nominal.distance - 1),
    });
    expect(await settled(3)).toEqual([]);
    const far = await fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, {
      fix: bearingFix(worst.forward.distance + 2),
      replacesId: first.id,
      reason: "Read again",
    });
    expect(await settled(3)).toEqual(["alarm"]);
    expect(JSON.parse(await bookEntry("alarm-raised"))).toMatchObject({
      badge: null,
      fix: far.id,
      verdict: "model-wrong",
    });
    // The range holds, on every page, until the safety officer lifts it.
    const range = () => expecting(200, "GET", `${fair.base}/range`);
    const { mode, holds } = await range();
    expect(mode).toBe("hold");
    expect(holds).toMatchObject([{ id: `alarm-${far.id}`, by: null }]);
    expect(holds[0].why).toMatch(/^A throw of Machine 4 went .* m \(.* ft\), beyond the worst one/);
    expect(holds[0].why).not.toContain("before it was entered");
    const lift = { holds: [holds[0].id] };
    await fair.as("judge")(403, "POST", "/range/lift", lift);
    await officer(200, "POST", "/range/lift", lift);
    // Put right or not, it had sounded.
    await fair.as("judge")(201, "POST", `/shots/${shot.id}/fixes`, {
      fix: bearingFix(nominal.distance),
      replacesId: far.id,
      reason: "The tape was read wrongly",
    });
    expect(await settled(3)).toEqual(["alarm"]);
    await inspect(3);
    await sign(3);
    expect(await settled(3)).toEqual([]);
    expect((await range()).mode).toBe("cold");
    // One that comes in late holds a calm range too, and says how old it is.
    const other = (await fair.lay("POST", "/rounds", {})).shots.find(
      ({ machineId }: Answer) => machineId === fair.machineIds[3],
    );
    await fair.as("judge")(201, "POST", `/shots/${other.id}/fixes`, {
      fix: bearingFix(worst.backward.distance + 2, 270),
      observedAt: new Date(Date.now() - 45 * 60_000).toISOString(),
    });
    expect(await settled(3)).toEqual(["alarm"]);
    const late = await range();
    expect(late.mode).toBe("hold");
    expect(late.holds[0].why).toMatch(/It was seen 45 minutes before it was entered here\.$/);
  });
});

describe("a throw without a permit", () => {
  test("is kept and flagged, and counts only once it was ruled to stand", async () => {
    const { shots } = await fair.lay("POST", "/rounds", {});
    const of = (machine: number) =>
      shots.find(({ machineId }: Answer) => machineId === fair.machineIds[machine]);
    const enter = (machine: number, more: object) =>
      fair.as("judge")(201, "POST", `/shots/${of(machine).id}/fixes`, { fix: bearingFix(60), ...more });
    const flags = ({ flags }: Answer) => flags.map(({ code }: Answer) => code);
    await inspect(2);
    await sign(2);
    // Thrown while it stood, and taken back before anybody entered it.
    const observedAt = new Date().toISOString();
    await new Promise((resolve) => setTimeout(resolve, 5));
    const [{ id }] = (await clearance(2)).permits;
    await officer(201, "POST", `/permits/${id}/withdrawal`, { reason: "Done for today" });
    expect(flags(await enter(2, { observedAt }))).not.toContain("no-permit");
    // From before the contest's first permit.
    expect(flags(await enter(0, { observedAt: "2026-01-01T10:00:00Z" }))).not.toContain("no-permit");

    const { shot: before } = await expecting(200, "GET", `${fair.base}/shots/${of(2).id}`);
    expect(before.result.unpermitted).toBe(false);
    const entered = await enter(2, {});
    expect(flags(entered)).toContain("no-permit");
    expect(entered.flags.find(({ code }: Answer) => code === "no-permit").text).toContain("Done for today");
    const row = async () => {
      const { overall } = await expecting(200, "GET", `${fair.base}/standings`);
      const { marks } = overall.find(({ entrantId }: Answer) => entrantId === fair.entrantIds[2]);
      return marks.find(({ shotId }: Answer) => shotId === of(2).id);
    };
    expect(await row()).toMatchObject({ counts: false, why: "no-permit", mark: 60 });
    await officer(201, "POST", "/rulings", {
      shotId: of(2).id,
      decision: "stands",
      reason: "The officer stood beside it and had forgotten to sign",
    });
    expect(await row()).toMatchObject({ counts: true, mark: 60 });
  });
});
