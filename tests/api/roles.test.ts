/** Every line of the role table, tried by every role: who may, can; who may not, is told so and leaves no trace. */
import { beforeAll, describe, expect, test } from "vitest";
import type { Role } from "@/lib/api/contracts";
import { type Act, MAY } from "@/lib/contest";
import { linesFor } from "@/lib/inspection";
import {
  at,
  bearingFix,
  contestBody,
  declaration,
  expecting,
  type Fair,
  newFair,
  rowCounts,
  signIn,
  square,
} from "./fair";
import { beginEntry, CAPTAIN, fullDraft, later, newLink } from "./team-entries";

let fair: Fair;
let shots: { id: string; entrantId: string; machineId: string }[];
let spareBadges: string[];

beforeAll(async () => {
  fair = await newFair(6);
  shots = (await fair.lay("POST", "/rounds", { round: 1 })).shots;
  const feature = { kind: "building", name: "Shed", geometry: { type: "Point", coordinates: at(20, 350) } };
  featureId = (await fair.lay("POST", "/features", feature)).id;
  const bank = { kind: "spectators", name: "Bank", geometry: BANK, standOff: 1 };
  bankId = (await fair.lay("POST", "/features", bank)).id;
  const [longitude, latitude] = at(200, 30);
  spotId = (await fair.lay("POST", "/firing-points", { latitude, longitude })).id;
  pegId = (await fair.lay("POST", "/control-points", { name: "Peg", ...spot(10) })).id;
  pictureId = (await fair.lay("POST", "/aerial-pictures", { name: "Kite", content: GREY })).id;
  heightId = (await fair.lay("POST", "/spot-heights", { ...spot(11), height: 20 })).id;
  consentId = (await fair.lay("POST", "/consents", { kind: "insurer", party: "Field Mutual" })).id;
  fileId = (await fair.lay("POST", "/safety-files", {})).id;
  barrierId = (await fair.as("safety-officer")(201, "POST", "/barriers", WALL)).id;
  const text = "The tape sagged";
  protestId = (await fair.as("team")(201, "POST", "/protests", { shotId: shots[0]?.id, text })).id;
  const { id, code } = await fair.lay("POST", "/badges", { role: "judge", label: "Lost" });
  const lost = await signIn(code);
  const { revokedAt: observedAt } = await fair.lay("POST", `/badges/${id}/revoke`, {});
  const entry = { fix: bearingFix(60), observedAt };
  for (let index = 0; index < 8; index++)
    heldIds.push(
      (await expecting(201, "POST", `${fair.base}/shots/${shots[5]?.id}/fixes`, { as: lost, body: entry }))
        .id,
    );
  await clearSpare();
  await enterTeams();
  spareBadges = [];
  for (let index = 0; index < 2; index++)
    spareBadges.push((await fair.lay("POST", "/badges", { role: "judge", label: `Spare ${index}` })).id);
});

/** A machine that has no shot, inspected and permitted: what a judge enters of the others has no say in it. */
async function clearSpare(): Promise<void> {
  const { divisionId } = fair;
  const { id: entrantId } = await fair.lay("POST", "/entrants", { divisionId, name: "Spare team" });
  const entered = { entrantId, name: "Spare", declaration: declaration() };
  const { id } = await fair.lay("POST", "/machines", entered);
  spare = `/machines/${id}`;
  const { firingPointId } = fair;
  await fair.lay("PATCH", `${spare}/placement`, { firingPointId, bearing: 90 });
  const inspector = fair.as("safety-officer");
  const { revisions, current } = await inspector(200, "GET", spare);
  const lines = linesFor(revisions[0].declaration.machine).map((line) => ({ id: line.id, finding: "meets" }));
  inspection = { revisionId: revisions[0].id, lines, outcome: "meets" };
  permit = {
    revisionId: revisions[0].id,
    firingPointId,
    bearing: 90,
    sheetId: current.sheetId,
    inspectionId: (await inspector(201, "POST", `${spare}/inspections`, inspection)).id,
    limits: {
      wind: { speed: 0, gust: 0, height: 10 },
      bearing: 1,
      projectileMass: { least: 3, most: 3 },
      counterweightMass: null,
      pressure: null,
    },
  };
  permitId = (await inspector(201, "POST", `${spare}/permits`, permit)).id;
}
/** Entries of teams, sent by a link: one for every try that decides. */
async function enterTeams(): Promise<void> {
  const link = await newLink(fair);
  linkId = link.id;
  for (let index = 0; index < 5; index++) {
    const team = await beginEntry(fair, link.token);
    const people = [
      { ...CAPTAIN, id: `captain-of-entry-${index}` },
      {
        id: `minor-of-entry-${index}00`,
        name: "Pim",
        ofAge: false,
        guardianName: "Ros",
        consentWay: "paper",
      },
    ];
    // The first has no minor: it can be accepted.
    const crew = index === 0 ? people.slice(0, 1) : people;
    await team.save(
      fullDraft(fair, { team: `Entry ${index}`, machineName: `Entered ${index}`, people: crew }),
    );
    await team.ask(200, "POST", "/sending");
    const { id, version } = (await team.read()).entry;
    entries.push({ id, version, minor: people[1]?.id ?? "" });
  }
}
const entries: { id: string; version: number; minor: string }[] = [];
const entryOf = (index: number) => entries[index] ?? { id: "", version: 0, minor: "" };
let linkId: string;

let spare: string;
let inspection: { revisionId: string; lines: object[]; outcome: string };
let permit: object;
let permitId: string;
let featureId: string;
let bankId: string;
const BANK = { type: "Point", coordinates: at(200, 400) };
let spotId: string;
let pegId: string;
let heightId: string;
let pictureId: string;
/** A picture of 16 × 16 pixels, as small as a picture may be. */
const GREY =
  "iVBORw0KGgoAAAANSUhEUgAAABAAAAAQCAAAAAA6mKC9AAAAD0lEQVR4nGNoQAMMI1sAAAUMgAFaSOXNAAAAAElFTkSuQmCC";
const WALL = {
  name: "Wall",
  geometry: { type: "LineString", coordinates: [at(80, 60), at(100, 60)] },
  height: 4,
  reason: "Bales, pushed at with a tractor",
};
let barrierId: string;
/** One for every try: what is decided stays so. */
const heldIds: string[] = [];
let heldTried = 0;
let protestId: string;
let consentId: string;
let fileId: string;
let count = 0;
const DAY = "2031-10-04T08:00:00.000Z";

type Try = {
  method: string;
  path: () => string;
  body: () => unknown;
  contest?: false;
  /** A POST that makes nothing. */
  changes?: true;
};

/** A way to do every act that writes; fresh each time, so that only the role decides. */
const WRITES: Partial<Record<Act, Try[]>> = {
  "sign and withdraw firing permits": [
    { method: "POST", path: () => `/permits/${permitId}/withdrawal`, body: () => ({ reason: "It leans" }) },
    { method: "POST", path: () => `${spare}/permits`, body: () => permit },
  ],
  "inspect a machine": [{ method: "POST", path: () => `${spare}/inspections`, body: () => inspection }],
  "revise a machine as measured": [
    {
      method: "POST",
      path: () => `${spare}/measured-revisions`,
      body: () => ({
        revisionId: inspection.revisionId,
        measured: [{ path: "machine.releaseSpeed", value: 26 }],
      }),
    },
  ],
  "invite teams to enter themselves": [
    { method: "POST", path: () => "/entry-links", body: () => ({ endsAt: later() }) },
    { method: "PATCH", path: () => `/entry-links/${linkId}`, body: () => ({ most: 50 + count++ }) },
  ],
  "decide on an entry of a team": [
    {
      method: "POST",
      path: () => `/entries/${entryOf(0).id}/acceptance`,
      body: () => ({ version: entryOf(0).version }),
    },
    {
      method: "POST",
      path: () => `/entries/${entryOf(1).id}/refusal`,
      body: () => ({ version: entryOf(1).version, answer: `Too late ${count++}` }),
      changes: true,
    },
    {
      method: "POST",
      path: () => `/entries/${entryOf(2).id}/return`,
      body: () => ({ version: entryOf(2).version, answer: `A photograph, please ${count++}` }),
      changes: true,
    },
    {
      method: "POST",
      path: () => `/entries/${entryOf(3).id}/people/${entryOf(3).minor}/form-seen`,
      body: () => ({}),
      changes: true,
    },
  ],
  "erase people's data of an entry": [
    { method: "POST", path: () => `/entries/${entryOf(4).id}/erasure`, body: () => ({}), changes: true },
  ],
  "create another contest": [
    { method: "POST", path: () => "/contests", body: () => contestBody(`other-${count++}`), contest: false },
  ],
  "change the contest": [{ method: "PATCH", path: () => "", body: () => ({ place: `Field ${count++}` }) }],
  "allow a looser protection": [
    {
      method: "PUT",
      path: () => `/features/${bankId}/allowance`,
      body: () => ({ allowed: true, rule: null, standOff: 1, geometry: BANK, reason: `Bales ${count++}` }),
    },
  ],
  "lay out divisions, entrants, firing points and site features": [
    { method: "POST", path: () => "/divisions", body: () => ({ name: `Division ${count++}` }) },
    {
      method: "POST",
      path: () => "/entrants",
      body: () => ({ name: `New ${count++}`, divisionId: fair.divisionId }),
    },
    { method: "POST", path: () => "/firing-points", body: () => spot(count++) },
    { method: "PATCH", path: () => `/firing-points/${spotId}`, body: () => spot(count++) },
    {
      method: "POST",
      path: () => "/features",
      body: () => ({ kind: "building", name: "Hut", geometry: square(5) }),
    },
    { method: "PATCH", path: () => `/features/${featureId}`, body: () => ({ name: `Shed ${count++}` }) },
    {
      method: "POST",
      path: () => "/import",
      body: () => ({
        items: [{ what: "feature", kind: "building", name: `Hut ${count++}`, geometry: square(5) }],
      }),
    },
    {
      method: "POST",
      path: () => "/control-points",
      body: () => ({ name: `Peg ${count++}`, ...spot(count) }),
    },
    {
      method: "PATCH",
      path: () => `/control-points/${pegId}`,
      body: () => ({ accuracy: (count++ % 9) + 1 }),
    },
    { method: "POST", path: () => "/spot-heights", body: () => ({ ...spot(count++), height: 20 }) },
    { method: "PATCH", path: () => `/spot-heights/${heightId}`, body: () => ({ height: count++ % 99 }) },
    {
      method: "POST",
      path: () => "/aerial-pictures",
      body: () => ({ name: `Kite ${count++}`, content: GREY }),
    },
    {
      method: "PATCH",
      path: () => `/aerial-pictures/${pictureId}`,
      body: () => ({ name: `Kite ${count++}` }),
    },
  ],
  "enter a machine": [
    {
      method: "POST",
      path: () => "/machines",
      body: () => ({ entrantId: fair.entrantIds[0], name: `M ${count++}` }),
    },
    {
      method: "PATCH",
      path: () => `/machines/${fair.machineIds[0]}`,
      body: () => ({ name: `M ${count++}` }),
    },
  ],
  "make and revoke badges": [
    { method: "POST", path: () => "/badges", body: () => ({ role: "judge", label: `J ${count++}` }) },
    { method: "POST", path: () => `/badges/${spareBadges[0]}/revoke`, body: () => ({}) },
  ],
  "make a firing order": [
    { method: "POST", path: () => "/rounds", body: () => ({ round: 2 }) },
    {
      method: "POST",
      path: () => "/firing-order",
      body: () => ({ rules: { startAt: DAY }, reason: "Wind" }),
    },
  ],
  "move a turn": [
    {
      method: "PUT",
      path: () => `/turns/${shots[1]?.id}/place`,
      body: () => ({ after: null, reason: `Not ready ${count++}` }),
    },
  ],
  "say how long a machine takes": [
    {
      method: "PUT",
      path: () => `/machines/${fair.machineIds[0]}/times`,
      body: () => ({ rearm: 600 + count++, live: 120, notBefore: null }),
    },
  ],
  "read the wind": [
    {
      method: "POST",
      path: () => "/wind-readings",
      body: () => ({ speed: 2, gust: 4, direction: count++ % 360, observer: "Line post" }),
    },
  ],
  "sign for a barrier": [
    { method: "POST", path: () => "/barriers", body: () => ({ ...WALL, name: `Wall ${count++}` }) },
    {
      method: "PATCH",
      path: () => `/barriers/${barrierId}`,
      body: () => ({ retired: true, reason: "Done" }),
    },
  ],
  "place a machine": [
    {
      method: "PATCH",
      path: () => `/machines/${fair.machineIds[0]}/placement`,
      body: () => ({ firingPointId: fair.firingPointId, bearing: 90 + (count++ % 5) }),
    },
  ],
  "declare a machine revision": [
    {
      method: "POST",
      path: () => `/machines/${fair.machineIds[0]}/revisions`,
      body: () => ({ declaration: declaration(20 + count++ / 10) }),
    },
  ],
  "keep the register of consents and the safety plan": [
    {
      method: "POST",
      path: () => "/consents",
      body: () => ({ kind: "landowner", party: `Estate office ${count++}` }),
    },
    { method: "PATCH", path: () => `/consents/${consentId}`, body: () => ({ note: `Seen ${count++}` }) },
    { method: "PUT", path: () => "/safety-plan", body: () => ({ plan: { hospital: `North ${count++}` } }) },
  ],
  "freeze a safety file": [
    { method: "POST", path: () => "/safety-files", body: () => ({ note: `For the insurer ${count++}` }) },
  ],
  "set the policy": [
    { method: "PUT", path: () => "/policy", body: () => ({ policy: { margin: 1.3 }, reason: "Wet ground" }) },
  ],
  "set the air": [
    { method: "PUT", path: () => "/air", body: () => ({ air: { wind: { speed: 3 } }, reason: "Morning" }) },
  ],
  "record a fix": [
    {
      method: "POST",
      path: () => `/shots/${shots[count % 6]?.id}/fixes`,
      body: () => ({ fix: bearingFix(60 + (count++ % 5)) }),
    },
  ],
  "confirm an entry of an ended badge": [
    {
      method: "POST",
      path: () => `/held-fixes/${heldIds[heldTried]}/decision`,
      body: () => ({ decision: "rejected", reason: `Not seen ${heldTried++}` }),
    },
  ],
  "sight a splash": [
    {
      method: "POST",
      path: () => `/shots/${shots[0]?.id}/sightings`,
      body: () => ({ from: pegId, bearing: 40 + (count++ % 5), way: "dial" }),
    },
  ],
  "rule on an entrant": [
    {
      method: "POST",
      path: () => "/rulings",
      body: () => ({ entrantId: fair.entrantIds[5], decision: "competing", reason: `Seen ${count++}` }),
    },
  ],
  "rule on a protest": [
    {
      method: "POST",
      path: () => "/rulings",
      body: () => ({ protestId, decision: "dismissed", reason: `Looked at ${count++}` }),
    },
  ],
  "set the mark rule": [
    {
      method: "PUT",
      path: () => "/mark-rule",
      body: () => ({
        rule: { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" },
        reason: `Read out again ${count++}`,
      }),
    },
  ],
  "enter a protest": [
    {
      method: "POST",
      path: () => "/protests",
      body: () => ({ entrantId: fair.entrantIds[0], text: `Over the line ${count++}` }),
    },
  ],
  "rule on a shot": [
    {
      method: "POST",
      path: () => "/rulings",
      body: () => ({ shotId: shots[5]?.id, decision: "stands", reason: `Checked ${count++}` }),
    },
  ],
};

const READS: Partial<Record<Act, (() => string)[]>> = {
  "make and revoke badges": [() => "/badges"],
  "invite teams to enter themselves": [() => "/entry-links"],
  "see entries of teams with their people": [() => "/entries", () => `/entries/${entryOf(0).id}`],
  "confirm an entry of an ended badge": [() => "/held-fixes"],
  "see consents, safety plan and safety files": [
    () => "/consents",
    () => "/safety-plan",
    () => "/safety-files",
    () => `/safety-files/${fileId}`,
    () => `/safety-files/${fileId}/text`,
  ],
  "see inspections and firing permits": [() => `/machines/${fair.machineIds[0]}/clearance`],
  "see a machine's declaration and sheet": [
    () => `/machines/${fair.machineIds[0]}`,
    () => `/machines/${fair.machineIds[0]}/sheet`,
  ],
};

const spot = (number: number) => {
  const [longitude, latitude] = at(180, 20 + number);
  return { latitude, longitude };
};

const SENDERS = ["organiser", "safety-officer", "judge", "team", "rival"] as const;
type Sender = (typeof SENDERS)[number];
const roleOf = (sender: Sender): Role => (sender === "rival" ? "team" : sender);

function mayDo(act: Act, sender: Sender): boolean {
  const grant = (MAY[act] as Partial<Record<Role, true | "own">>)[roleOf(sender)];
  return grant === true || (grant === "own" && sender === "team");
}

const addressOf = (attempt: Try) => `${attempt.contest === false ? "" : fair.base}${attempt.path()}`;

/** The judge's view is a page without a route; what the range lets be done hangs on what was done before. */
const ELSEWHERE: Act[] = [
  // fixes.test.ts
  "see the judge's view",
  // range-state.test.ts
  "hold the range",
  "lift a hold",
  "put the range hot or cold",
  "set the times of the range",
  "tick the stand-clear list",
  "say clear at a post",
  "keep the tally",
  "erase names of the tally",
  "enter a machine's state",
  "name who approaches a misfire",
  // rehearsal.test.ts
  "play a rehearsal",
];

test("every act of the table is tried here", () => {
  const tried = new Set([...Object.keys(WRITES), ...Object.keys(READS), ...ELSEWHERE]);
  expect([...tried].sort()).toEqual(Object.keys(MAY).sort());
});

describe.each(Object.keys(WRITES) as Act[])("%s", (act) => {
  test("nobody who may not", async () => {
    for (const attempt of WRITES[act] ?? [])
      for (const sender of SENDERS.filter((each) => !mayDo(act, each))) {
        const before = await rowCounts(fair.db);
        const problem = await expecting(403, attempt.method, addressOf(attempt), {
          as: fair.tokens[sender],
          body: attempt.body(),
        });
        expect(problem.code).toBe("not-allowed");
        expect(problem.detail).toMatch(/^Only .* may /);
        expect(await rowCounts(fair.db)).toEqual(before);
      }
  });

  test("nobody who has not signed in", async () => {
    for (const attempt of WRITES[act] ?? []) {
      const before = await rowCounts(fair.db);
      const problem = await expecting(401, attempt.method, addressOf(attempt), { body: attempt.body() });
      expect(problem.detail).toContain("Sign in");
      expect(await rowCounts(fair.db)).toEqual(before);
    }
  });

  test("everybody who may", async () => {
    for (const attempt of WRITES[act] ?? [])
      for (const sender of SENDERS.filter((each) => mayDo(act, each))) {
        const makes = attempt.method === "POST" && !attempt.changes && !attempt.path().endsWith("/revoke");
        const status = makes ? 201 : 200;
        const sent = { as: fair.tokens[sender], body: attempt.body() };
        await expecting(status, attempt.method, addressOf(attempt), sent);
      }
  });
});

test.each(Object.keys(READS) as Act[])("%s: reading", async (act) => {
  for (const path of READS[act] ?? []) {
    for (const sender of SENDERS)
      await expecting(mayDo(act, sender) ? 200 : 403, "GET", `${fair.base}${path()}`, {
        as: fair.tokens[sender],
      });
    await expecting(401, "GET", `${fair.base}${path()}`);
  }
});

test("a badge of one contest may do nothing in another", async () => {
  const other = contestBody("next-year");
  await expecting(201, "POST", "/contests", { as: fair.tokens.organiser, body: other });
  const problem = await expecting(403, "POST", "/contests/next-year/divisions", {
    as: fair.tokens.organiser,
    body: { name: "Open" },
  });
  expect(problem.code).toBe("other-contest");
});

test("reading what is public needs no badge, and shows no dimensions", async () => {
  for (const path of ["", "/standings", "/shots", "/scorebook", `/shots/${shots[0]?.id}`]) {
    const answer = await expecting(200, "GET", `${fair.base}${path}`);
    expect(JSON.stringify(answer)).not.toContain("releaseSpeed");
  }
});
