/** What the site is measured and drawn by: control points, heights of the ground, the picture underneath. */
import { CONTEST, type RouteInfo, TAKEN } from "./shapes";

const LAY_OUT = "lay out divisions, entrants, firing points and site features";

export const SITE: readonly RouteInfo[] = [
  {
    method: "post",
    path: `${CONTEST}/barriers`,
    summary: "Sign for a barrier",
    description:
      "It ends zones where every throw, with all margins, flies lower than it; nothing else is stopped by it.",
    who: "sign for a barrier",
    body: "BarrierRequest",
    answer: "Barrier",
    status: 201,
  },
  {
    method: "patch",
    path: `${CONTEST}/barriers/{id}`,
    summary: "Retire a barrier",
    description: "From now on it stops nothing. A barrier is not changed: sign for another.",
    who: "sign for a barrier",
    body: "BarrierRetirement",
    answer: "Barrier",
    refusals: { 409: "It is retired already." },
  },
  {
    method: "post",
    path: `${CONTEST}/control-points`,
    summary: "Add a control point",
    who: LAY_OUT,
    body: "ControlPointRequest",
    answer: "ControlPoint",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "patch",
    path: `${CONTEST}/control-points/{id}`,
    summary: "Change or retire a control point",
    description: "What it was before stays in the scorebook.",
    who: LAY_OUT,
    body: "ControlPointChange",
    answer: "ControlPoint",
    refusals: TAKEN,
  },
  {
    method: "post",
    path: `${CONTEST}/spot-heights`,
    summary: "Add a height of the ground",
    who: LAY_OUT,
    body: "SpotHeightRequest",
    answer: "SpotHeight",
    status: 201,
  },
  {
    method: "patch",
    path: `${CONTEST}/spot-heights/{id}`,
    summary: "Change or retire a height of the ground",
    description: "What it was before stays in the scorebook.",
    who: LAY_OUT,
    body: "SpotHeightChange",
    answer: "SpotHeight",
  },
  {
    method: "post",
    path: `${CONTEST}/aerial-pictures`,
    summary: "Lay a picture underneath the map",
    description:
      "JPEG, PNG or WebP in base64, at most 12 MB and 4096 pixels a side, without Exif, XMP or text data. It is drawn once two pins or more say where it lies.",
    who: LAY_OUT,
    body: "AerialPictureRequest",
    answer: "AerialPicture",
    status: 201,
  },
  {
    method: "get",
    path: `${CONTEST}/aerial-pictures/{id}`,
    summary: "The picture itself",
    description: "Its bytes never change under one id, and may be kept for good.",
    answer: "Picture",
    mediaType: "image/*",
  },
  {
    method: "patch",
    path: `${CONTEST}/aerial-pictures/{id}`,
    summary: "Pin, name, show, hide or retire a picture",
    who: LAY_OUT,
    body: "AerialPictureChange",
    answer: "AerialPicture",
  },
];
