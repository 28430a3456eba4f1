/** A tap on the map: the last resort. */
import { z } from "zod";
import { own } from "../budget";
import { DEFAULT_UNCERTAINTY } from "../uncertainty";
import { metres } from "../warnings";
import type { SurveyMethod } from "./method";
import { ask, LANDING_FIELD, landed, metreUncertainty, number, optional, place } from "./parts";

export const mapTapFixSchema = z.strictObject({
  ...landed,
  method: z.literal("map-tap"),
  ...place,
  /** Of the map's zoom when it was tapped: m on the ground for one pixel of the page. */
  metresPerPixel: number("Enter the map's scale in metres per pixel.")
    .positive("The scale is above zero.")
    .max(200, "Zoom in: at this scale a fingertip covers kilometres."),
  /** Standard uncertainty of the map or picture itself along each axis, m. */
  mapUncertainty: metreUncertainty,
});

export const mapTap: SurveyMethod<typeof mapTapFixSchema> = {
  method: "map-tap",
  title: "Tap on the map",
  summary: "The last resort: where it seemed to land, tapped on the map as far zoomed in as can be.",
  coarse: true,
  schema: mapTapFixSchema,
  fields: [
    ask.number("latitude", "Latitude", "angle", "Tapped, on WGS 84, south negative."),
    ask.number("longitude", "Longitude", "angle", "Tapped, on WGS 84, west negative."),
    ask.number("metresPerPixel", "Metres per pixel", "distance", "Of the map when it was tapped."),
    ask.number(
      "mapUncertainty",
      "Uncertainty of the map",
      "distance",
      "Standard; 2 m if left empty.",
      optional,
    ),
    LANDING_FIELD,
  ],
  place({ latitude, longitude, metresPerPixel, mapUncertainty = DEFAULT_UNCERTAINTY.map }) {
    const tap = DEFAULT_UNCERTAINTY.tap * metresPerPixel;
    return {
      point: { latitude, longitude },
      budget: [
        own("tap east", tap, 0),
        own("tap north", 0, tap),
        own("map east", mapUncertainty, 0),
        own("map north", 0, mapUncertainty),
      ],
      warnings: [
        {
          code: "coarse",
          text: `A tap on the map is good to about ${metres(2 * Math.hypot(tap, mapUncertainty))}: measure the landing point by tape, laser or satellites as soon as somebody can stand on it.`,
        },
      ],
    };
  },
};
