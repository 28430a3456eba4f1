/**
 * The earth under the range: WGS 84 geodesics and a local plane, gravity, the air. Pure: no I/O, no clock.
 * SI units; latitude, longitude and bearings in degrees.
 */
export * from "./air";
export * from "./bearing";
export * from "./geodesic";
export * from "./gravity";
export * from "./ground";
export * from "./near-plane";
export * from "./picture-fit";
export * from "./picture-models";
