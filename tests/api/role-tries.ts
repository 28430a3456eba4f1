/** A way to try every line of the role table, by every route that asks it, with bodies that are right for who may. */
import type { Act } from "@/lib/contest";
import { at, bearingFix, contestBody, declaration, type Fair, square } from "./fair";
import { later } from "./team-entries";
import { clearSpare, type Entered, enterTeams, holdEntries } from "./tried-things";

export interface Try {
  method: string;
  /** Below the contest's address. */
  path: () => string;
  /** Fresh each time, so that only the role decides. */
  body?: () => unknown;
  /** Its path begins at /api/v1. */
  whole?: true;
  /** A list: each team sees its own part. */
  everyTeam?: true;
  /** Takes long, or hangs on what was done before, which another file tests: tried by who may not, alone. */
  refusedOnly?: true;
  /** By one of those who may. */
  once?: true;
}

/** A picture of 16 × 16 pixels, as small as a picture may be. */
const GREY =
  "iVBORw0KGgoAAAANSUhEUgAAABAAAAAQCAAAAAA6mKC9AAAAD0lEQVR4nGNoQAMMI1sAAAUMgAFaSOXNAAAAAElFTkSuQmCC";
const BANK = { type: "Point", coordinates: at(200, 400) };
const WALL = {
  name: "Wall",
  geometry: { type: "LineString", coordinates: [at(80, 60), at(100, 60)] },
  height: 4,
  reason: "Bales, pushed at with a tractor",
};
const DAY = "2031-10-04T08:00:00.000Z";
const spot = (number: number) => {
  const [longitude, latitude] = at(180, 20 + number);
  return { latitude, longitude };
};

/** Lays out what the tries are about, in a fair of two teams. */
export async function layTries(fair: Fair): Promise<Record<Act, Try[]>> {
  let count = 0;
  const id = async (path: string, body: unknown): Promise<string> => (await fair.lay("POST", path, body)).id;
  const [mine, rivals] = (await fair.lay("POST", "/rounds", { round: 1 })).shots;
  const shed = { kind: "building", name: "Shed", geometry: { type: "Point", coordinates: at(20, 350) } };
  const featureId = await id("/features", shed);
  const bankId = await id("/features", { kind: "spectators", name: "Bank", geometry: BANK, standOff: 1 });
  const post = { kind: "post", name: "Post", geometry: { type: "Point", coordinates: at(300, 300) } };
  const postId = await id("/features", post);
  const spotId = await id("/firing-points", spot(40));
  const pegId = await id("/control-points", { name: "Peg", ...spot(10) });
  const pictureId = await id("/aerial-pictures", { name: "Kite", content: GREY });
  const heightId = await id("/spot-heights", { ...spot(11), height: 20 });
  const consentId = await id("/consents", { kind: "insurer", party: "Field Mutual" });
  const barrierId = (await fair.as("safety-officer")(201, "POST", "/barriers", WALL)).id;
  const against = { shotId: mine.id, text: "The tape sagged" };
  const protestId = (await fair.as("team")(201, "POST", "/protests", against)).id;
  const heldIds = await holdEntries(fair, rivals.id, 2);
  const badgeIds = [];
  for (const label of ["Spare 1", "Spare 2"]) badgeIds.push(await id("/badges", { role: "judge", label }));
  const [spareBadge, revocable] = badgeIds;
  const { machineId, permitId, inspection, permit } = await clearSpare(fair);
  const spare = `/machines/${machineId}`;
  const { revisions } = await fair.as("organiser")(200, "GET", `/machines/${fair.machineIds[1]}`);
  const rivalRevision: string = revisions[0].id;
  const own = `/machines/${fair.machineIds[0]}`;
  const { entrantId: spareEntrant } = await fair.lay("PATCH", spare, { name: "Spare" });
  const range = `/range/machines/${fair.machineIds[0]}`;
  const incident = () => ({
    machineId: fair.machineIds[1],
    part: "trigger",
    hurt: "nobody",
    account: `Let go ${count++}`,
  });
  const { linkId, entries } = await enterTeams(fair);
  const [accepted, refused, returned, seen, erased] = entries as Entered[];
  const entry = (one: Entered | undefined, path: string, more: object = {}): Try => ({
    method: "POST",
    path: () => `/entries/${one?.id}${path}`,
    body: () => ({
      ...(path !== "/erasure" && { version: one?.version }),
      ...more,
    }),
  });
  const ofIncident = `/incidents/${await id("/incidents", incident())}`;
  const write = (path: string, body: () => unknown, more: Partial<Try> = {}): Try => ({
    method: "POST",
    path: () => path,
    body,
    ...more,
  });
  const patch = (path: string, body: () => unknown): Try => ({ ...write(path, body), method: "PATCH" });
  const put = (path: string, body: () => unknown, more: Partial<Try> = {}): Try => ({
    ...write(path, body, more),
    method: "PUT",
  });
  const get = (path: string, more: Partial<Try> = {}): Try => ({ method: "GET", path: () => path, ...more });
  const refusedOnly = { refusedOnly: true } as const;

  return {
    "create another contest": [
      write("/contests", () => contestBody(`other-${count++}`), { whole: true, once: true }),
    ],
    "change the contest": [patch("", () => ({ place: `Field ${count++}` }))],
    "lay out divisions, entrants, firing points and site features": [
      write("/divisions", () => ({ name: `Division ${count++}` })),
      write("/entrants", () => ({ name: `New ${count++}`, divisionId: fair.divisionId })),
      write("/firing-points", () => spot(count++)),
      patch(`/firing-points/${spotId}`, () => spot(count++)),
      write("/features", () => ({ kind: "building", name: "Hut", geometry: square(5) })),
      patch(`/features/${featureId}`, () => ({ name: `Shed ${count++}` })),
      write("/import", () => ({
        items: [{ what: "feature", kind: "building", name: `Hut ${count++}`, geometry: square(5) }],
      })),
      write("/import-preview?name=pegs.csv", () => "name,latitude,longitude\nPeg,44,-31\n"),
      write("/control-points", () => ({ name: `Peg ${count++}`, ...spot(count) })),
      patch(`/control-points/${pegId}`, () => ({ accuracy: (count++ % 9) + 1 })),
      write("/spot-heights", () => ({ ...spot(count++), height: 20 })),
      patch(`/spot-heights/${heightId}`, () => ({ height: count++ % 99 })),
      write("/aerial-pictures", () => ({ name: `Kite ${count++}`, content: GREY })),
      patch(`/aerial-pictures/${pictureId}`, () => ({ name: `Kite ${count++}` })),
    ],
    "enter a machine": [
      write("/machines", () => ({ entrantId: fair.entrantIds[0], name: `M ${count++}` })),
      patch(own, () => ({ name: `M ${count++}` })),
    ],
    "make and revoke badges": [
      get("/badges"),
      get("/sign-ins"),
      write("/badges", () => ({ role: "judge", label: `J ${count++}` })),
      patch(`/badges/${spareBadge}`, () => ({ endsAt: "2031-10-05T08:00:00.000Z" })),
      write(`/badges/${spareBadge}/code`, () => ({ devices: "replace" })),
      write(`/badges/${revocable}/revoke`, () => ({})),
    ],
    "invite teams to enter themselves": [
      get("/entry-links"),
      write("/entry-links", () => ({ endsAt: later() })),
      patch(`/entry-links/${linkId}`, () => ({ most: 50 + count++ })),
    ],
    "see entries of teams with their people": [
      get("/entries"),
      get(`/entries/${accepted?.id}`),
      // entries.test.ts has one with a photograph.
      get(`/entries/${accepted?.id}/photographs/x`, refusedOnly),
    ],
    "decide on an entry of a team": [
      entry(accepted, "/acceptance"),
      entry(refused, "/refusal", { answer: "Too late" }),
      entry(returned, "/return", { answer: "A photograph, please" }),
      entry(seen, `/people/${seen?.minor}/form-seen`),
    ],
    "erase people's data of an entry": [entry(erased, "/erasure")],
    "make a firing order": [
      write("/firing-order-preview", () => ({ rules: { startAt: DAY } }), refusedOnly),
      write("/rounds", () => ({ round: 2 })),
      write("/firing-order", () => ({ rules: { startAt: DAY }, reason: "Wind" })),
    ],
    // Who is called to the line but not ready is seen there.
    "move a turn": [
      put(`/turns/${rivals.id}/place`, () => ({ after: null, reason: `Not ready ${count++}` })),
    ],
    "say how long a machine takes": [
      put(`${own}/times`, () => ({ rearm: 600 + count++, live: 120, notBefore: null })),
    ],
    "place a machine": [
      ...["/cures", "/fit", "/clear-bearings"].map((path) =>
        get(`${path}?machine=${fair.machineIds[0]}`, refusedOnly),
      ),
      get("/placing", { once: true }),
      get("/placing/plan", refusedOnly),
      put(
        "/placing",
        () => {
          const to = { firingPointId: spotId, bearing: 90 };
          return { placements: [{ machineId: fair.machineIds[0], from: null, to }] };
        },
        refusedOnly,
      ),
      patch(`${own}/placement`, () => ({ firingPointId: fair.firingPointId, bearing: 90 + (count++ % 5) })),
    ],
    "declare a machine revision": [
      write(`${own}/revisions`, () => ({ declaration: declaration(20 + count++ / 10) })),
    ],
    "inspect a machine": [write(`${spare}/inspections`, () => inspection)],
    "revise a machine as measured": [
      write(
        `/machines/${fair.machineIds[1]}/measured-revisions`,
        () => ({ revisionId: rivalRevision, measured: [{ path: "machine.releaseSpeed", value: 26 }] }),
        { once: true },
      ),
    ],
    "sign and withdraw firing permits": [
      write(`${spare}/permits`, () => permit),
      write(`/permits/${permitId}/withdrawal`, () => ({ reason: "It leans" })),
    ],
    "see inspections and firing permits": [get("/clearance", { everyTeam: true }), get(`${own}/clearance`)],
    "set the policy": [put("/policy", () => ({ policy: { margin: 1.3 }, reason: "Wet ground" }))],
    "set the air": [put("/air", () => ({ air: { wind: { speed: 3 } }, reason: "Morning" }))],
    "allow a looser protection": [
      put(`/features/${bankId}/allowance`, () => ({
        allowed: true,
        rule: null,
        standOff: 1,
        geometry: BANK,
        reason: `Bales ${count++}`,
      })),
    ],
    "sign for a barrier": [
      write("/barriers", () => ({ ...WALL, name: `Wall ${count++}` })),
      patch(`/barriers/${barrierId}`, () => ({ retired: true, reason: "Done" })),
    ],
    "read the wind": [
      write("/wind-readings", () => ({
        speed: 2,
        gust: 4,
        direction: count++ % 360,
        observer: "Line post",
      })),
    ],
    "record a fix": [write(`/shots/${mine.id}/fixes`, () => ({ fix: bearingFix(60 + (count++ % 5)) }))],
    "sight a splash": [
      write(`/shots/${mine.id}/sightings`, () => ({ from: pegId, bearing: 40 + (count++ % 5), way: "dial" })),
    ],
    "rule on an entrant": [
      write("/rulings", () => ({
        entrantId: spareEntrant,
        decision: "competing",
        reason: `Seen ${count++}`,
      })),
    ],
    "rule on a shot": [
      write("/rulings", () => ({ shotId: rivals.id, decision: "stands", reason: `Checked ${count++}` })),
    ],
    "confirm an entry of an ended badge": [
      get("/held-fixes"),
      {
        method: "POST",
        path: () => `/held-fixes/${heldIds[0]}/decision`,
        // One for each of those who may: what is decided stays so.
        body: () => ({ decision: "rejected", reason: "Not seen" }),
        once: true,
      },
    ],
    "rule on a protest": [
      write("/rulings", () => ({ protestId, decision: "dismissed", reason: `Looked at ${count++}` })),
    ],
    "set the mark rule": [
      put("/mark-rule", () => ({
        rule: { from: "firing-point", landing: "first-impact", sector: null, unit: "1cm" },
        reason: `Read out again ${count++}`,
      })),
    ],
    "enter a protest": [
      write("/protests", () => ({ entrantId: fair.entrantIds[0], text: `Over the line ${count++}` })),
    ],
    "keep the register of consents and the safety plan": [
      write("/consents", () => ({ kind: "landowner", party: `Estate office ${count++}` })),
      patch(`/consents/${consentId}`, () => ({ note: `Seen ${count++}` })),
      put("/safety-plan", () => ({ plan: { hospital: `North ${count++}` } })),
    ],
    "freeze a safety file": [write("/safety-files", () => ({ note: "For all" }), refusedOnly)],
    "see consents, safety plan and safety files": [
      get("/consents"),
      get("/safety-plan"),
      // safety.test.ts looks at what a file lacks, and freezes one.
      get("/safety-files", refusedOnly),
      get("/safety-files/x", refusedOnly),
      get("/safety-files/x/text", refusedOnly),
    ],
    "hold the range": [write("/range/hold", () => ({}), refusedOnly)],
    "lift a hold": [write("/range/lift", () => ({ holds: [] }), refusedOnly)],
    "put the range hot or cold": [
      write("/range/hot", () => ({ machineId: fair.machineIds[0], turn: 1 }), refusedOnly),
      write("/range/cold", () => ({ hot: "x" }), refusedOnly),
    ],
    "set the times of the range": [
      put("/range/times", () => ({
        times: { silence: 10, clearLasts: 600, misfireWait: 600 },
        reason: "Mine",
      })),
    ],
    "tick the stand-clear list": [
      put(
        "/range/stand-clear",
        () => ({ machineId: fair.machineIds[0], version: "x", key: "x", done: true, turn: 1 }),
        refusedOnly,
      ),
    ],
    "say clear at a post": [
      put(`/range/posts/${postId}`, () => ({ clear: true, turn: 1, phone: "A phone at it" }), refusedOnly),
      write("/range/beats", () => ({}), refusedOnly),
    ],
    "keep the tally": [
      get("/range/tags"),
      write("/range/tags", () => ({ name: "Robin Example" }), refusedOnly),
      write("/range/tags/x/in", () => ({}), refusedOnly),
      write(
        "/range/tags/paper",
        () => ({
          name: "Robin Example",
          outAt: "2026-10-04T09:00:00Z",
          inAt: "2026-10-04T09:10:00Z",
          witness: "Line",
        }),
        refusedOnly,
      ),
    ],
    "erase names of the tally": [write("/range/tags/erase", () => ({}), refusedOnly)],
    "enter a machine's state": [put(range, () => ({ to: "raising", step: 0 }), refusedOnly)],
    "name who approaches a misfire": [
      write(`${range}/approach`, () => ({ name: "Robin Example", step: 0 }), refusedOnly),
    ],
    "play a rehearsal": [
      get("/rehearsal"),
      // In a demo alone: rehearsal.test.ts.
      write("/rehearsal", () => ({}), refusedOnly),
      write("/rehearsal/end", () => ({}), refusedOnly),
    ],
    "enter an incident": [
      write("/incidents", incident),
      write(`${ofIncident}/reports`, () => ({
        part: "arm-or-limb",
        hurt: "nobody",
        reason: `Looked again ${count++}`,
      })),
      write(`${ofIncident}/pieces`, () => ({ found: "piece", fix: bearingFix(10 + (count++ % 5)) })),
      write(`${ofIncident}/words`, () => ({ kind: "account", text: `Heard a crack ${count++}` })),
    ],
    "see incidents": [get("/incidents"), get(ofIncident), get(`${ofIncident}/replays`)],
    "erase what was written of an incident": [write(`${ofIncident}/words/erase`, () => ({}))],
    // A page without a route: fixes.test.ts has it.
    "see the judge's view": [],
    "see a machine's declaration and sheet": [
      get(own),
      get(`${own}/sheet`),
      get(`${own}/landing-contours`, refusedOnly),
    ],
  };
}
