/**
 * The request and response shapes of every /api/v1 route, and so of lib/contest's commands and queries. SI units,
 * degrees, times in ISO 8601 with an offset. Pure zod: pages may import this in the browser. Requests are strict
 * (an unknown field is refused by name); answers describe what is sent. The routes themselves are in ../routes.ts.
 */

export * from "./aerial";
export * from "./barriers";
export * from "./consents";
export * from "./contest";
export * from "./cures";
export * from "./entries";
export * from "./exchange";
export * from "./firing-order";
export * from "./incidents";
export * from "./inspections";
export * from "./machines";
export * from "./overview";
export * from "./parts";
export * from "./people";
export * from "./permits";
export * from "./range-points";
export * from "./range-state";
export * from "./rehearsal";
export * from "./results";
export * from "./safety";
export * from "./shots";
export * from "./sightings";
export * from "./wind";
export * from "./zones";
