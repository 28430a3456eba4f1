/** The judge's view as this phone last knew it: a page that opens without a network may be older than that. */
import { serverNow } from "@/app/_ui/offline/clock";
import { phoneDatabase } from "@/app/_ui/offline/database";
import type { JudgeView } from "@/lib/api/contracts";

const idOf = (slug: string, round: number | null) => `${slug} ${round ?? "none"}`;

/** The kept view of the same round if it is newer than the page, which was made at `madeAt`; else null. */
export async function newerView(
  slug: string,
  round: number | null,
  madeAt: string,
): Promise<JudgeView | null> {
  try {
    const found = await (await phoneDatabase()).get("views", idOf(slug, round));
    if (!found || found.at <= madeAt) return null;
    // The first version knew of no sightings.
    const shots = found.view.shots.map((shot) => ({ ...shot, sightings: shot.sightings ?? [] }));
    return { ...found.view, shots };
  } catch {
    return null;
  }
}

export async function keepView(slug: string, view: JudgeView): Promise<void> {
  try {
    const id = idOf(slug, view.round);
    await (await phoneDatabase()).put("views", { id, view, at: serverNow().toISOString() });
  } catch {
    // Nothing is lost: the page then shows what it was made with.
  }
}
