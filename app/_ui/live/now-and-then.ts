/** ms. Twenty judges' pages that hear of twenty entries a second then ask ten times a second, not four hundred. */
const PAUSE = 2000;

/**
 * Reading anew what has changed, without a request for every change: at once when it was quiet, then no oftener than
 * every `pause` ms, and always once more after the last change.
 */
export function nowAndThen(work: () => Promise<void>, pause = PAUSE): () => void {
  let resting = false;
  let asked = false;
  const run = async () => {
    resting = true;
    asked = false;
    const rest = new Promise((resolve) => setTimeout(resolve, pause));
    await Promise.all([work().catch(() => {}), rest]);
    resting = false;
    if (asked) void run();
  };
  return () => {
    asked = true;
    if (!resting) void run();
  };
}
