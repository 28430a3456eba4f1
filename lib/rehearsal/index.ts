/**
 * A played day, for officials to practise hold: which turns there are, what goes wrong at which of them, and what came of
 * it. It knows no database, no web and no clock: lib/contest plays it through the commands that people use.
 */
export { type Cue, type CueResult, debrief, type HoldHeard, type RunResult } from "./debrief";
export {
  cueWords,
  MISFIRE_WAIT,
  PATIENCE,
  type PlayedTurn,
  SURPRISES,
  type Surprise,
  writeScript,
} from "./script";
