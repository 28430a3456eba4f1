// Where a worker thread starts: tsx reads TypeScript only on the main thread unless it is told to.
import { register } from "tsx/esm/api";

register();
await import("./hazard-worker.ts");
