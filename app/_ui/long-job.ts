/** One long question, answered in a worker of its own, that may tell how far it is before it is done. */

/** Time for the page to draw that it works, where it must work on the page's own thread, ms. */
const BREATH = 50;

export interface LongJob<Question, Part> {
  makeWorker: () => Worker;
  /** For the page's own thread, where a worker cannot run: an old browser, a strict proxy. */
  compute: (question: Question, heard: (part: Part) => void) => void;
  /** Whether nothing follows. */
  isLast: (part: Part) => boolean;
}

/** Returns what drops the question: nothing is heard after it. */
export function startLongJob<Question, Part>(
  { makeWorker, compute, isLast }: LongJob<Question, Part>,
  question: Question,
  heard: (part: Part) => void,
): () => void {
  let open = true;
  let worker: Worker | null = null;
  const hear = (part: Part) => {
    if (isLast(part)) worker?.terminate();
    if (open) heard(part);
  };
  const here = () => setTimeout(() => open && compute(question, hear), BREATH);
  try {
    worker = makeWorker();
    worker.addEventListener("message", ({ data }: MessageEvent<Part>) => hear(data));
    worker.addEventListener("error", here);
    worker.postMessage(question);
  } catch {
    here();
  }
  return () => {
    open = false;
    worker?.terminate();
  };
}
