/** What the workbench keeps in this browser, and what it is called where it is told that something is not kept. */

export const BENCH_KEY = "fairthrow-bench";
export const YARD_KEY = "fairthrow-yard";
export const LOG_KEY = "fairthrow-trials";
export const FINDINGS_KEY = "fairthrow-findings";
export const STOP_KEY = "fairthrow-stop";

const NAMES: Readonly<Record<string, string>> = {
  [BENCH_KEY]: "the machine",
  [YARD_KEY]: "the practice yard",
  [LOG_KEY]: "the practice throws",
  [FINDINGS_KEY]: "the checklist and spare parts",
  [STOP_KEY]: "the stop",
  "fairthrow-before-ground": "the numbers of the level ground",
  "fairthrow-before-height": "the numbers of the height on the road",
  "fairthrow-before-trailer": "the trailer's numbers",
  "fairthrow-before-load": "the trailer's load",
  "fairthrow-before-fill": "the numbers of the filling",
  "fairthrow-before-clearances": "the clearances",
  "fairthrow-before-raising": "the numbers of the raising",
  "fairthrow-before-anchors": "the numbers of the anchoring",
};

export const isKnown = (key: string): boolean => Object.hasOwn(NAMES, key);

export const nameOf = (key: string): string => NAMES[key] ?? "a form of the workbench";
