/** A played day in the demo contest, through the commands that people use. */
export { endRehearsal, startRehearsal } from "./commands";
export { readRehearsal } from "./runs";
