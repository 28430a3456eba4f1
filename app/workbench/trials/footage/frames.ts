/** Which frame a film shows: going to one, to the next one, and how many there are in a second. */

export interface Shown {
  /** s, of the frame that is really shown where the browser tells it. */
  time: number;
  /** The browser told it; else it is where the film was sent. */
  timed: boolean;
}

/** How long a frame may take to be shown before its time is taken for untold, ms. */
const PATIENCE = 400;
/** How long a film may take to go anywhere, ms. */
const LONGEST = 4000;
/** Two times within it are of one frame, s. */
const SAME = 4e-4;
export interface Rate {
  /** Frames a second, by what is usual between frames. */
  rate: number;
  /** As many a second as the frames that follow each other fastest. */
  finest: number;
  uneven: boolean;
}

/** Where the page missed a frame the count tells it: such steps are left out. */
export function rateOf(heard: readonly { time: number; count: number }[]): Rate | null {
  const steps = heard.slice(1).flatMap(({ time, count }, i) => {
    const before = heard[i] as { time: number; count: number };
    return time > before.time && count === before.count + 1 ? [time - before.time] : [];
  });
  if (steps.length < 4) return null;
  steps.sort((a, b) => a - b);
  const at = (share: number) => steps[Math.floor(share * (steps.length - 1))] as number;
  const middle = at(0.5);
  // Files round times to the millisecond: the mean of what is about as long as the middle one has less of that.
  const usual = steps.filter((step) => Math.abs(step - middle) < Math.max(0.0015, 0.2 * middle));
  const mean = usual.reduce((sum, step) => sum + step, 0) / usual.length;
  const finest = 1 / at(0.05);
  return {
    rate: Math.round(100 / mean) / 100,
    finest,
    uneven: at(0.8) - at(0.2) > Math.max(0.0025, 0.2 * middle),
  };
}

export const pause = (ms: number) => new Promise<void>((resolve) => setTimeout(resolve, ms));

/** Some frames on or back from one that is shown: the next one is wherever the time of the picture first changes. */
export async function stepped(
  video: HTMLVideoElement,
  from: Shown,
  by: number,
  rate: number,
): Promise<Shown> {
  if (!from.timed) {
    const frame = Math.max(0, Math.round(from.time * rate) + by);
    const shown = await shownAt(video, (frame + 0.5) / rate, from, rate);
    return shown.timed ? shown : { time: frame / rate, timed: false };
  }
  if (Math.abs(by) > 1) return shownAt(video, from.time + (by + 0.5) / rate, from, rate);
  if (by < 0) return shownAt(video, from.time - Math.min(0.002, 0.1 / rate), from, rate);
  for (const frames of [1.05, 1.5, 2.05, 2.5, 3.05, 4.05, 5.05, 7.05, 10.05]) {
    const shown = await shownAt(video, from.time + frames / rate, from, rate);
    if (!shown.timed || shown.time > from.time + SAME) return shown;
    if (from.time + frames / rate >= video.duration) break;
  }
  return from;
}

/** Goes there and sees which frame it is. Where the browser shows none anew, a picture that is still the same is `from`. */
export async function shownAt(
  video: HTMLVideoElement,
  time: number,
  from: Shown,
  rate: number,
): Promise<Shown> {
  const target = Math.min(Math.max(0, time), video.duration);
  const before = from.timed ? printOf(video) : null;
  const told = new Promise<number | null>((resolve) => {
    if (!("requestVideoFrameCallback" in video)) {
      resolve(null);
      return;
    }
    let told: number | null = null;
    let asked = 0;
    const hear = (_: number, { mediaTime }: VideoFrameCallbackMetadata) => {
      asked = video.requestVideoFrameCallback(hear);
      // One that was on its way before may still come, from beyond the place or long before it.
      if (mediaTime > target + SAME) return;
      told = mediaTime;
      if (mediaTime > target - 1.2 / rate) enough();
    };
    asked = video.requestVideoFrameCallback(hear);
    const enough = () => {
      video.cancelVideoFrameCallback(asked);
      resolve(told);
    };
    const wait = () => setTimeout(enough, PATIENCE);
    video.addEventListener("seeked", wait, { once: true });
    setTimeout(enough, LONGEST);
  });
  const sought = new Promise((resolve) => video.addEventListener("seeked", resolve, { once: true }));
  video.currentTime = target;
  await Promise.race([sought, pause(LONGEST)]);
  const frame = await told;
  if (frame !== null) return { time: frame, timed: true };
  const after = before && printOf(video);
  return after?.every((value, i) => value === before?.[i]) ? from : { time: target, timed: false };
}

/** The picture, small. */
function printOf(video: HTMLVideoElement): Uint8ClampedArray | null {
  const [width, height] = [160, 90];
  const canvas = Object.assign(document.createElement("canvas"), { width, height });
  const brush = canvas.getContext("2d", { willReadFrequently: true });
  if (!brush || video.readyState < 2) return null;
  brush.drawImage(video, 0, 0, width, height);
  return brush.getImageData(0, 0, width, height).data;
}
