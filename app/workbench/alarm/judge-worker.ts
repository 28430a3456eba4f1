/** Judges the throws of one machine off the page's own thread: at once, then against the whole tolerance box. */
import type { MachineAsked } from "../trials/machine/ask";
import { judge } from "./judge";

addEventListener("message", ({ data }: MessageEvent<MachineAsked>) =>
  judge(data, (part) => postMessage(part)),
);
