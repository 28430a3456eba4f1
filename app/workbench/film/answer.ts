/** What the page asks, and the answers: computed in the worker, or on the page's thread where there is none. */
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
