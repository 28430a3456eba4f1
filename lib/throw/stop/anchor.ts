/** What a frame bears when it is pushed level: as if the peak force stood still, which is the careful side. */

export interface Anchoring {
  /** To be held level by stakes or ties beyond friction, N; 0 when friction is enough. */
  level: number;
  /** To be held down at the edge that would lift, N; 0 when the frame's weight is enough. */
  down: number;
  /** Of what holds the frame down over the push's moment about the far edge; null without a push. */
  tippingReserve: number | null;
}

/** @param upward what lifts the middle of the frame at the same time, N */
export function anchoring(
  force: number,
  frame: { mass: number; footprint: number; friction: number; height: number },
  gravity: number,
  upward = 0,
): Anchoring {
  const pressing = frame.mass * gravity - upward;
  const overturning = force * frame.height;
  const holding = (pressing * frame.footprint) / 2;
  return {
    level: Math.max(0, force - frame.friction * Math.max(0, pressing)),
    down: Math.max(0, overturning - holding) / frame.footprint,
    tippingReserve: overturning > 0 ? Math.max(0, holding) / overturning : null,
  };
}
