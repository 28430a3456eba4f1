/** Incidents: what failed, where pieces went, held against what was foreseen. Never public. */
export { addPiece, correctReport, enterIncident } from "./enter";
export { replayIncident } from "./replays";
export { listIncidents, readIncident } from "./view";
export { eraseWords, writeWords } from "./words";
