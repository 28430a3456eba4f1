/** The feed of what changed, to every open page. */
export { closeLive, HEARTBEAT, type LiveEvent, type LiveHub, liveHub, type Source, tellRange } from "./hub";
export { afterSaves, savesFirst } from "./saves-first";
