/** What a machine of `layFair` needs before the range goes hot for it: air, a wind, an inspection, a signed permit. */
import type { MachinePage, SheetAnswer } from "../../lib/api/contracts";
import { linesFor } from "../../lib/inspection";
import type { Client } from "./client";

const WIND = { speed: 0, gust: 0, height: 10 };

/** `officer`: the safety officer. In still air, as the sheets are. */
export async function permitAll(officer: Client, base: string, machineIds: readonly string[]): Promise<void> {
  await officer.ask("POST", `${base}/wind-readings`, {
    speed: 0,
    gust: 0,
    direction: 250,
    observer: "Line post",
  });
  for (const id of machineIds) {
    const { machine, revisions } = await officer.ask<MachinePage>("GET", `${base}/machines/${id}`);
    const { sheetId } = await officer.ask<SheetAnswer>("GET", `${base}/machines/${id}/sheet`);
    const [revision] = revisions;
    if (!revision) throw new Error("This machine has no revision.");
    const lines = linesFor(revision.declaration.machine).map((line) => ({
      id: line.id,
      finding: "meets",
      note: "",
    }));
    const { mass = 0 } = revision.declaration.projectile;
    const inspection = await officer.ask<{ id: string }>("POST", `${base}/machines/${id}/inspections`, {
      revisionId: revision.id,
      lines,
      outcome: "meets",
    });
    await officer.ask("POST", `${base}/machines/${id}/permits`, {
      revisionId: revision.id,
      firingPointId: machine.firingPointId,
      bearing: machine.bearing,
      sheetId,
      inspectionId: inspection.id,
      limits: {
        wind: WIND,
        bearing: 1,
        projectileMass: { least: mass, most: mass },
        counterweightMass: null,
        pressure: null,
      },
    });
  }
}
