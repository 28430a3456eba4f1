/**
 * What the throw engine is asked and what it answers. SI units; angles in degrees (radians only inside the
 * engine). These zod contracts are the only way in: the HTTP API, the database and the pages all use them.
 */
export * from "./air";
export * from "./barrier";
export * from "./calibration";
export * from "./faults";
export * from "./loads";
export * from "./policy";
export * from "./projectile";
export * from "./replay";
export * from "./request";
export * from "./sheet";
export * from "./spread";
export * from "./strengths";
