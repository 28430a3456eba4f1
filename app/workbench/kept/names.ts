/** What the workbench keeps in this browser, and what it is called where it is told that something is not kept. */

export const BENCH_KEY = "fairthrow-bench";
export const YARD_KEY = "fairthrow-yard";
export const LOG_KEY = "fairthrow-trials";
/** STOP that came with a machine of another browser. */
export const RECEIVED_KEY = "fairthrow-received-stops";
export const FINDINGS_KEY = "fairthrow-findings";
export const STOP_KEY = "fairthrow-stop";
/** The throw that is being written down. */
export const DRAFT_KEY = "fairthrow-trials-draft";
/** What the throws were judged to be: worked out anew where it is not kept. */
export const VERDICTS_KEY = "fairthrow-trials-verdicts";

const NAMES: Readonly<Record<string, string>> = {
  [BENCH_KEY]: "the machine",
  [YARD_KEY]: "the practice yard",
  [LOG_KEY]: "the practice throws",
  [RECEIVED_KEY]: "STOP that came with a machine",
  [FINDINGS_KEY]: "the checklist and spare parts",
  [STOP_KEY]: "the stop",
  [DRAFT_KEY]: "the throw that is not written down yet",
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
