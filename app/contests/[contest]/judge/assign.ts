/** Which shot an entry is of: made for one, or moved to another with nothing typed again. Pure. */
import type { KeptEntry } from "@/app/_ui/offline/database";
import { newKey } from "@/app/_ui/write/key";
import type { FixRequest } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import { type JudgeShot, type Range, resultOf } from "./entry";

export const titleOf = (shot: Pick<JudgeShot, "round" | "entrantNumber" | "entrantName">) =>
  `Round ${shot.round}, ${shot.entrantNumber} ${shot.entrantName}`;

export const entryFor = (
  slug: string,
  shot: JudgeShot,
  body: FixRequest,
  owner: string | null,
  range: Range,
  system: UnitSystem,
): KeptEntry => ({
  key: newKey(),
  slug,
  owner,
  url: `/api/v1/contests/${slug}/shots/${shot.id}/fixes`,
  body,
  shotId: shot.id,
  title: titleOf(shot),
  result: resultOf(body.fix, shot, range, system),
  madeAt: new Date().toISOString(),
  tried: false,
  refused: null,
});

/** The same measurement, seen at the same time, as the first entry of another shot; what it corrected is left alone. */
export const movedTo = (
  entry: KeptEntry,
  shot: JudgeShot,
  owner: string | null,
  range: Range,
  system: UnitSystem,
): KeptEntry => {
  const { replacesId: _, reason: __, ...seen } = entry.body;
  return entryFor(entry.slug, shot, seen, owner, range, system);
};
