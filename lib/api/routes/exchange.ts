/** The site in and out of files. */
import * as contracts from "../contracts";
import { CONTEST, type RouteInfo } from "./shapes";

const LAY_OUT = "lay out divisions, entrants, firing points and site features";

export const EXCHANGE: readonly RouteInfo[] = [
  {
    method: "post",
    path: `${CONTEST}/import-preview`,
    summary: "Read a file of the site, and say what importing it would do",
    description:
      "GeoJSON, KML, KMZ, GPX or CSV of points in WGS 84, at most 5 MB, 5000 places and 2000 corners an outline; what it is is found out from its contents. Changes nothing: send the items that are wanted to `import`.",
    who: LAY_OUT,
    body: "SiteFileRequest",
    bodyType: "application/octet-stream",
    query: contracts.importPreviewQuery,
    answer: "ImportPreview",
    keyless: true,
  },
  {
    method: "post",
    path: `${CONTEST}/import`,
    summary: "Bring in features, firing points, control points and spot heights",
    description:
      "All in one transaction or none, each with its entry in the scorebook, each by the rules of its own route.",
    who: LAY_OUT,
    body: "ImportRequest",
    answer: "ImportAnswer",
    status: 201,
    refusals: { 409: "A firing point's number or a control point's name is taken." },
  },
  {
    method: "get",
    path: `${CONTEST}/export`,
    summary: "The site as a file: GeoJSON, KML, KMZ, GPX, CSV of points, or the list of pegs to set out",
    description:
      "With the zones of the day. Brought in again it is the same site: names, kinds, rules, stand-offs, heights. CSV carries points alone, and GPX shows areas to other programs as tracks.",
    query: contracts.exportQuery,
    answer: "SiteFile",
    mediaType: "application/octet-stream",
  },
];
