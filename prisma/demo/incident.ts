/** What the demo's inspector was told of before the machine was refused: a trigger that let go by itself. Nobody is hurt. */
import { addPiece, type Call, enterIncident, type Reply } from "../../lib/contest";

const ENTRANT = 8;
/** Of the throw as meant: it was hardly raised. */
const SHARE = 0.4;

export async function tellIncident(
  judge: () => Call,
  slug: string,
  machines: readonly { id: string; number: number }[],
  bearingOf: (entrantNumber: number) => number,
  nominal: ReadonlyMap<string, number>,
): Promise<void> {
  const machineId = machines.find(({ number }) => number === ENTRANT)?.id ?? "";
  const { id } = await done(
    enterIncident(judge(), slug, {
      machineId,
      part: "trigger",
      hurt: "nobody",
      witness: "Judge at the line",
      account:
        "The trigger let go while the arm was being drawn down. The crew stood behind the rope; the load landed short.",
    }),
  );
  const distance = Math.round(SHARE * (nominal.get(machineId) ?? 0) * 100) / 100;
  const line = bearingOf(ENTRANT);
  const fix = { outcome: "landed", method: "bearing-distance" };
  await addPiece(judge(), slug, id, {
    found: "projectile",
    place: "rest",
    fix: { ...fix, bearing: line + 3, distance },
  });
  await addPiece(judge(), slug, id, {
    found: "machine",
    place: "rest",
    fix: { ...fix, bearing: line - 15, distance: 7.4 },
  });
}

const done = async <T>(reply: Promise<Reply<T>>): Promise<T> => (await reply).answer;
