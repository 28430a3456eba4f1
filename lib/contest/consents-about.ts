/** What becomes of agreements about a site feature, and what the scorebook keeps of any: no party's name. */
import type { DatabaseTransaction } from "../db";
import type { OpenScorebook } from "./scorebook";

export interface RecordedConsent {
  kind: string;
  featureId: string | null;
  givenOn: string | null;
  expiresOn: string | null;
  retired: boolean;
}

export const recorded = ({ kind, featureId, givenOn, expiresOn, retired }: RecordedConsent) => ({
  kind,
  feature: featureId,
  givenOn,
  expiresOn,
  retired,
});

/**
 * What was agreed about a feature was agreed about where it lay: redrawn, it is to be asked for again. The old paper is
 * not brought back, whether it counted until now or not.
 */
export async function retireConsentsAbout(
  tx: DatabaseTransaction,
  book: OpenScorebook,
  featureId: string,
): Promise<void> {
  for (const before of await tx.consent.findMany({ where: { featureId, lapsed: false } })) {
    const row = await tx.consent.update({ where: { id: before.id }, data: { retired: true, lapsed: true } });
    if (!before.retired)
      await book.append("consent-changed", row.id, { from: recorded(before), to: recorded(row) });
  }
}
