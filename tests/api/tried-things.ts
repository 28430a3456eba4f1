/** What the tries of the role table are about, where it takes more than one request to be there. */
import { linesFor } from "@/lib/inspection";
import { bearingFix, declaration, expecting, type Fair, signIn } from "./fair";
import { beginEntry, CAPTAIN, fullDraft, newLink } from "./team-entries";

export interface Entered {
  id: string;
  version: number;
  minor: string;
}

/** Entries of teams, sent by a link: one for every try that decides. */
export async function enterTeams(fair: Fair): Promise<{ linkId: string; entries: Entered[] }> {
  const link = await newLink(fair);
  const entries: Entered[] = [];
  for (let index = 0; index < 5; index++) {
    const team = await beginEntry(fair, link.token);
    const minor = `minor-of-entry-${index}00`;
    const people = [
      { ...CAPTAIN, id: `captain-of-entry-${index}` },
      { id: minor, name: "Pim", ofAge: false, guardianName: "Ros", consentWay: "paper" },
    ];
    // The first has no minor: it can be accepted.
    const crew = index === 0 ? people.slice(0, 1) : people;
    const named = { team: `Entry ${index}`, machineName: `Entered ${index}`, people: crew };
    await team.save(fullDraft(fair, named));
    await team.ask(200, "POST", "/sending");
    const { id, version } = (await team.read()).entry;
    entries.push({ id, version, minor });
  }
  return { linkId: link.id, entries };
}

/** What a badge that was revoked meanwhile delivered. */
export async function holdEntries(fair: Fair, shotId: string, count: number): Promise<string[]> {
  const { id, code } = await fair.lay("POST", "/badges", { role: "judge", label: "Lost" });
  const lost = await signIn(code);
  const { revokedAt: observedAt } = await fair.lay("POST", `/badges/${id}/revoke`, {});
  const ids: string[] = [];
  for (let index = 0; index < count; index++) {
    const body = { fix: bearingFix(60), observedAt };
    ids.push((await expecting(201, "POST", `${fair.base}/shots/${shotId}/fixes`, { as: lost, body })).id);
  }
  return ids;
}

/** A machine that has no shot, inspected and permitted: what a judge enters of the others has no say in it. */
export async function clearSpare(fair: Fair) {
  const { divisionId, firingPointId } = fair;
  const { id: entrantId } = await fair.lay("POST", "/entrants", { divisionId, name: "Spare team" });
  const entered = { entrantId, name: "Spare", declaration: declaration() };
  const { id: machineId } = await fair.lay("POST", "/machines", entered);
  const spare = `/machines/${machineId}`;
  await fair.lay("PATCH", `${spare}/placement`, { firingPointId, bearing: 90 });
  const inspector = fair.as("safety-officer");
  const { revisions, current } = await inspector(200, "GET", spare);
  const revisionId: string = revisions[0].id;
  const lines = linesFor(revisions[0].declaration.machine).map(({ id }) => ({ id, finding: "meets" }));
  const inspection = { revisionId, lines, outcome: "meets" };
  const permit = {
    revisionId,
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
  const permitId: string = (await inspector(201, "POST", `${spare}/permits`, permit)).id;
  return { machineId, permitId, inspection, permit };
}
