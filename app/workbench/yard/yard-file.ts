/** The yard as a file that it, a contest and other programs read. */
import { fileNameOf } from "../share/machine-file";
import { contentsOf } from "./site";
import type { Yard } from "./yard";
import type { YardZone } from "./zone";

/** A zone of today's numbers goes along, for who reads the file elsewhere; it never comes back in. */
export async function yardFile(
  yard: Yard,
  zone: YardZone | null,
): Promise<{ text: string; name: string; type: string }> {
  const { MEDIA_TYPES, writeSiteFile } = await import("@/lib/exchange");
  const drawn = zone?.geometry
    ? [
        {
          name: `Zone of ${zone.properties.machineName} from firing point ${zone.properties.firingPointNumber}, bearing ${zone.properties.bearing}°`,
          geometry: zone.geometry,
          caution: "Computed in a browser from what a team declared. Failures may go farther. Not official.",
        },
      ]
    : [];
  return {
    text: writeSiteFile(contentsOf(yard, drawn), "geojson") as string,
    name: `${fileNameOf(yard.name || "yard").replace(/\.fairthrow\.json$/, "")}.geojson`,
    type: MEDIA_TYPES.geojson,
  };
}
