/** What the frame bears when the stop is struck level: as if the peak force stood still, which is the careful side. */

export interface Anchoring {
  /** To be held level by stakes or ties beyond friction, N; 0 when friction is enough. */
  level: number;
  /** To be held down at the edge that would lift, N; 0 when the frame's weight is enough. */
  down: number;
  /** Of the frame's weight and footprint over the stop's moment about the far edge. */
  tippingReserve: number | null;
}

export function anchoring(
  force: number,
  frame: { mass: number; footprint: number; friction: number; height: number },
  gravity: number,
): Anchoring {
  const weight = frame.mass * gravity;
  const overturning = force * frame.height;
  const holding = (weight * frame.footprint) / 2;
  return {
    level: Math.max(0, force - frame.friction * weight),
    down: Math.max(0, overturning - holding) / frame.footprint,
    tippingReserve: overturning > 0 ? holding / overturning : null,
  };
}
