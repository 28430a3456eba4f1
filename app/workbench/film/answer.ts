/** What the page asks of its worker, and the answers: in the worker, or on the page's thread where there is none. */
import {
  type Film,
  type FilmPaths,
  filmOf,
  type HazardRequest,
  type HazardSheet,
  hazardSheet,
  Reel,
} from "@/lib/throw";

export type Question =
  | { do: "film"; request: HazardRequest; held: boolean }
  | { do: "keep-out"; request: HazardRequest };

export type Exclusion = HazardSheet["exclusion"];

export type Answer =
  | { film: Film; paths: FilmPaths }
  /** 0 to 1. */
  | { done: number }
  | { exclusion: Exclusion }
  | { failure: string };

export function answer(question: Question, say: (answer: Answer) => void): void {
  try {
    if (question.do === "film") {
      const film = filmOf(question.request, question.held);
      say({ film, paths: new Reel(film).paths() });
      return;
    }
    let told = 0;
    const { exclusion } = hazardSheet(question.request, (done) => {
      if (done - told < 0.01) return;
      told = done;
      say({ done });
    });
    say({ exclusion });
  } catch (error) {
    say({ failure: error instanceof Error ? error.message : String(error) });
  }
}

/**
 * Asks in a worker of its own; one that cannot run (an old browser, a strict proxy) leaves the question to the page's
 * own thread. Returns what drops the question.
 */
export function ask(question: Question, heard: (answer: Answer) => void): () => void {
  let open = true;
  const say = (part: Answer) => open && heard(part);
  let worker: Worker | null = null;
  const here = () => setTimeout(() => open && answer(question, say));
  try {
    worker = new Worker(new URL("./film-worker.ts", import.meta.url));
    worker.addEventListener("message", ({ data }: MessageEvent<Answer>) => {
      if (!("done" in data)) worker?.terminate();
      say(data);
    });
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
