/** Machines with how long they take, by team number. For server components. */
import { overview, reading } from "@/app/_ui/reading";
import { machineTimes } from "@/lib/contest";
import type { CrewMachine } from "./machine-times-list";

export async function crewMachines(slug: string): Promise<CrewMachine[]> {
  const { machines, entrants } = await overview(slug);
  const times = await reading((db) => machineTimes(db, slug));
  const teams = new Map(entrants.map((entrant) => [entrant.id, entrant]));
  return machines
    .filter(({ retired }) => !retired)
    .map(({ id, name, entrantId, firingPointId, bearing, revision }) => ({
      id,
      name,
      entrantId,
      number: teams.get(entrantId)?.number ?? 0,
      team: teams.get(entrantId)?.name ?? "",
      ready: firingPointId !== null && bearing !== null && revision !== null,
      times: times.find(({ machineId }) => machineId === id) ?? null,
    }))
    .sort((a, b) => a.number - b.number);
}
