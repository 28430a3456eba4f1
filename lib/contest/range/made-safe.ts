/** What is raised, armed, or may go off yet stays where its zone is drawn, and on the list of those who can make it safe. */
import type { DatabaseTransaction } from "../../db";
import { machineOf, stateWords } from "../../range";
import { conflict } from "../errors";
import { storedRange } from "./store";

/** Throws 409 while the machine is anything but made safe. */
export async function mustBeMadeSafe(
  tx: DatabaseTransaction,
  contestId: string,
  { id, name }: { id: string; name: string },
): Promise<void> {
  const { state } = machineOf(await storedRange(tx, contestId), id);
  if (state === "safe") return;
  throw conflict(
    "not-made-safe",
    `${name} is ${stateWords(state)}, and its zone is live where it stands: its crew’s chief makes it safe first.`,
  );
}
