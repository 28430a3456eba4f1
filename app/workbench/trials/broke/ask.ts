/** The question that a found piece is. Apart from the worker, which no worker may name. */
import { windAt } from "@/lib/earth";
import { type HazardRequest, type Replay, type ReplayRequest, replay, tuning } from "@/lib/throw";
import type { Piece, Throw } from "../log/log";
import { airOf } from "../log/measured";

export const explained = (asked: ReplayRequest): Replay => replay(asked);

/** The machine as it stood at that throw, in its wind, with its projectile. */
export function thrownRequest(request: HazardRequest, made: Throw): HazardRequest {
  const { settings, mass, wind } = made;
  const { wind: declared } = request.air ?? {};
  const there = { ...request, air: { ...airOf(made, request), ...(declared && { wind: declared }) } };
  const set = tuning.withValues(there, mass === null ? settings : { ...settings, mass });
  if (!wind) return set;
  const { by: _, ...read } = wind;
  const { gust, height = 10 } = request.air?.wind ?? {};
  // The declared gust is of the declared height.
  const gustThere = gust === undefined ? 0 : windAt(read.height, gust, height);
  const blown = gustThere > read.speed ? { ...read, gust: gustThere } : read;
  return { ...set, air: { ...set.air, wind: blown } };
}

export const pieceAsked = (
  request: HazardRequest,
  made: Throw,
  { found, place, distance, direction, uncertainty }: Piece,
): ReplayRequest => ({
  request: thrownRequest(request, made),
  landing: { distance, direction, uncertainty },
  found,
  place,
});
