/** The site as a file. */
import type { Format, SiteContents } from "./items";
import { writeCsv } from "./write-csv";
import { writeGeoJson } from "./write-geojson";
import { writeGpx } from "./write-gpx";
import { writeKml } from "./write-kml";
import { packKml } from "./zip";

export const MEDIA_TYPES: Record<Format, string> = {
  geojson: "application/geo+json",
  kml: "application/vnd.google-earth.kml+xml",
  kmz: "application/vnd.google-earth.kmz",
  gpx: "application/gpx+xml",
  csv: "text/csv; charset=utf-8",
};

/**
 * Everything of a site in one format, complete for `readSiteFile` to bring in again but for barriers and zones, which are
 * signed for and computed. CSV carries points alone; in GPX other programs see areas as tracks.
 */
export function writeSiteFile(site: SiteContents, format: Format): string | Uint8Array {
  switch (format) {
    case "geojson":
      return writeGeoJson(site);
    case "kml":
      return writeKml(site);
    case "kmz":
      return packKml(writeKml(site));
    case "gpx":
      return writeGpx(site);
    case "csv":
      return writeCsv(site);
  }
}
