/** What would make a machine fit its ground, and where all of them may stand. */
import { clearBearingsQuery, curesQuery, planQuery, standQuery } from "../contracts";
import { CONTEST, type RouteInfo } from "./shapes";

const PLACE = "place a machine";
const NO_SHEET = "This machine has no hazard sheet now.";
const BUSY = { 409: NO_SHEET, 503: "Too many ask at once, or it took too long: try again." };

export const CURES: readonly RouteInfo[] = [
  {
    method: "get",
    path: `${CONTEST}/cures`,
    summary: "What would keep a machine's zone off what it touches, cheapest first",
    description:
      "A turn, a step aside, another firing point, a move of what is touched, a weaker machine. Each was proven with its own official sheet against every feature. Nothing is changed: whoever decides places the machine, moves the feature or declares a revision. Takes some seconds to a minute.",
    who: PLACE,
    query: curesQuery,
    answer: "Cures",
    tellsProgress: true,
    refusals: BUSY,
  },
  {
    method: "get",
    path: `${CONTEST}/fit`,
    summary: "The largest counterweight, pressure or draw with which a machine fits",
    description:
      "Official sheets of a grid of values and of halvings between them; reach need not fall with the strength, so nothing is said of values that were not tested. Stored nowhere.",
    who: PLACE,
    query: standQuery,
    answer: "Fit",
    tellsProgress: true,
    refusals: BUSY,
  },
  {
    method: "get",
    path: `${CONTEST}/clear-bearings`,
    summary: "On which bearings a machine's zone touches nothing it must not, to a quarter of a degree",
    who: PLACE,
    query: clearBearingsQuery,
    answer: "ClearBearings",
    refusals: { 409: NO_SHEET },
  },
  {
    method: "get",
    path: `${CONTEST}/placing`,
    summary: "Every machine with its place and its reach by azimuth",
    who: PLACE,
    answer: "Placing",
  },
  {
    method: "put",
    path: `${CONTEST}/placing`,
    summary: "Put a plan into effect: all of its placements, or none",
    who: PLACE,
    body: "PlacingRequest",
    answer: "Placed",
    refusals: { 409: "A machine of the plan was moved or pinned since it was made." },
  },
  {
    method: "get",
    path: `${CONTEST}/placing/plan`,
    summary: "A firing point and a bearing for every machine, or the smallest set that cannot be placed",
    description: "Pinned machines stay. Changes nothing.",
    who: PLACE,
    query: planQuery,
    answer: "Plan",
    tellsProgress: true,
    refusals: { 503: "Too many ask at once, or it took too long: try again." },
  },
];
