/** The wind of the day. */
import { CONTEST, type RouteInfo } from "./shapes";

export const WIND: readonly RouteInfo[] = [
  {
    method: "get",
    path: `${CONTEST}/wind-readings`,
    summary: "The wind as it counts now, which distances no longer hold in it, and all readings",
    answer: "WindHistory",
  },
  {
    method: "post",
    path: `${CONTEST}/wind-readings`,
    summary: "Enter a reading of the wind",
    description:
      "Append-only, and may come late. A post corrects its reading by a new one. Zones grow with a wind beyond the limit until it expires, and never shrink below the limit.",
    who: "read the wind",
    body: "WindReadingRequest",
    answer: "WindReading",
    status: 201,
  },
];
