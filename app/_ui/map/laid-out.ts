/** From the API's control points, heights and pictures to what the map draws of them; retired ones stay away. */
import type { ContestOverview } from "@/lib/api/contracts";
import { fitPicture, pixelToPoint } from "@/lib/earth";
import { formatQuantity, type UnitSystem } from "@/lib/units";
import type { SceneMark, ScenePicture } from "./scene";

type Points = Pick<ContestOverview, "controlPoints" | "spotHeights">;

export function marksOf({ controlPoints, spotHeights }: Points, system: UnitSystem): SceneMark[] {
  return [
    ...controlPoints
      .filter(({ retired }) => !retired)
      .map(
        ({ id, name, latitude, longitude }): SceneMark => ({
          id,
          what: "control-point",
          text: name,
          at: { latitude, longitude },
        }),
      ),
    ...spotHeights
      .filter(({ retired }) => !retired)
      .map(
        ({ id, height, latitude, longitude }): SceneMark => ({
          id,
          what: "spot-height",
          text: formatQuantity(height, "distance", system, { digits: 1 }),
          at: { latitude, longitude },
        }),
      ),
  ];
}

/** Where the bytes of a picture are. */
export const pictureUrl = (slug: string, id: string) => `/api/v1/contests/${slug}/aerial-pictures/${id}`;

export function picturesOf(slug: string, pictures: ContestOverview["aerialPictures"]): ScenePicture[] {
  return pictures.flatMap(({ id, name, width, height, pins, model, opacity, shown, retired }) => {
    const answer = retired || pins.length === 0 ? null : fitPicture(pins, model ?? undefined);
    if (!answer?.ok) return [];
    const { fit } = answer;
    const corner = (x: number, y: number) => pixelToPoint(fit, x, y);
    const corners = [corner(0, 0), corner(width, 0), corner(0, height)] as const;
    return [{ id, name, url: pictureUrl(slug, id), width, height, corners, opacity, shown }];
  });
}
