/** People of an entry as a draft has them, and what becomes of a guardian's consent when they change. */
import type { z } from "zod";
import type { entryDraft } from "../api/contracts";
import type { DatabaseTransaction } from "../db";
import type { EntryRow } from "./entry-info";
import { invalid } from "./errors";

type Draft = z.output<typeof entryDraft>;

export function mustBeApart({ people }: Draft): void {
  const seen = new Set<string>();
  for (const [index, { id }] of people.entries()) {
    if (seen.has(id)) throw invalid(`people.${index}.id`, "Two people have the same id: make a new one.");
    seen.add(id);
  }
}

/**
 * A consent holds for the minor and the guardian whom it names: with another name in either place it falls. What is
 * ticked is kept with its text, so only the text that is shown now can be.
 */
export async function keepPeople(
  tx: DatabaseTransaction,
  { id: entryId, people: before }: EntryRow,
  { people }: Draft,
  text: string,
  at: Date,
): Promise<void> {
  const known = new Map(before.map((row) => [row.id, row]));
  await tx.entryPerson.deleteMany({ where: { entryId, id: { notIn: people.map(({ id }) => id) } } });
  for (const [position, person] of people.entries()) {
    const { id, agreedTo, ...rest } = person;
    const row = known.get(id);
    const same =
      row?.name === rest.name &&
      row.guardianName === rest.guardianName &&
      row.consentWay === rest.consentWay &&
      rest.ofAge === false;
    const none = { consentText: null, consentAt: null, consentBadgeId: null };
    let consent: { consentText: string | null; consentAt: Date | null; consentBadgeId: string | null } = none;
    if (rest.consentWay === "paper") {
      if (same && row) {
        const { consentText, consentAt, consentBadgeId } = row;
        consent = { consentText, consentAt, consentBadgeId };
      }
    } else if (agreedTo !== null && rest.ofAge === false) {
      if (same && row?.consentText === agreedTo)
        consent = { ...none, consentText: row.consentText, consentAt: row.consentAt };
      else if (agreedTo === text) consent = { ...none, consentText: text, consentAt: at };
      else
        throw invalid(
          `people.${position}.agreedTo`,
          "The text for the guardian has changed since: let the guardian read it again and tick it anew.",
        );
    }
    const data = { ...rest, ...consent, position };
    if (row) await tx.entryPerson.update({ where: { id }, data });
    else {
      if (await tx.entryPerson.findUnique({ where: { id } }))
        throw invalid(`people.${position}.id`, "Make a new id for every person.");
      await tx.entryPerson.create({ data: { id, entryId, ...data } });
    }
  }
}
