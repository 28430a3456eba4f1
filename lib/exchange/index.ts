/**
 * The site in and out of files: GeoJSON, KML, KMZ, GPX, CSV, and the list of pegs to set out. Pure: bytes and text in,
 * items out, and back; nothing of database, web or clock. What is read is refused or repaired here, with words, and kept
 * by lib/contest.
 */
export * from "./items";
export { type Peg, type PegList, type PegOptions, type PegSite, pegsCsv, pegsOf } from "./pegs";
export { readSiteFile, siteFileInSteps } from "./read";
export { MEDIA_TYPES, writeSiteFile } from "./write";
