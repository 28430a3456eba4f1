/** Taking the site out: as a file of any format, and as the list of pegs to set out. Open to all, as the map is. */
import { exportQuery, pegsQuery } from "../api/contracts";
import type { Database } from "../db";
import { MEDIA_TYPES, type PegList, pegsCsv, pegsOf, type SiteContents, writeSiteFile } from "../exchange";
import { contestOverview } from "./contests";
import { invalid, parse } from "./errors";
import { CAUTION, contestZones } from "./zones";

export async function siteFile(
  db: Database,
  slug: string,
  query: unknown,
): Promise<{ content: string | Uint8Array; mediaType: string; fileName: string }> {
  const { format, ...asked } = parse(exportQuery, query);
  if (format === "pegs")
    return {
      content: pegsCsv(await pegList(db, slug, asked)),
      mediaType: MEDIA_TYPES.csv,
      fileName: `${slug}-pegs.csv`,
    };
  return {
    content: writeSiteFile(await contentsOf(db, slug), format),
    mediaType: MEDIA_TYPES[format],
    fileName: `${slug}-site.${format}`,
  };
}

export interface Pegs extends PegList {
  every: number;
  /** What bearings and distances count from. */
  from: { id: string | null; name: string };
  /** What they can count from. */
  origins: { id: string; name: string }[];
}

/** Control points, firing points and the corners of every zone, with bearing and distance from one of the first two. */
export async function pegList(db: Database, slug: string, query: unknown): Promise<Pegs> {
  const { every, from: id } = parse(pegsQuery, query);
  const [site, contest] = [await contentsOf(db, slug), await contestOverview(db, slug)];
  const origins = [
    ...contest.controlPoints.filter(({ retired }) => !retired),
    ...contest.firingPoints
      .filter(({ retired }) => !retired)
      .map((point) => ({
        ...point,
        name: `Firing point ${point.number}${point.name ? `, ${point.name}` : ""}`,
      })),
  ];
  const chosen = id === undefined ? origins[0] : origins.find((each) => each.id === id);
  if (id !== undefined && !chosen)
    throw invalid("from", "No control point or firing point of this contest has this id.");
  const { latitude, longitude, height } = contest;
  const list = pegsOf(site, { every, from: chosen ?? { latitude, longitude }, height });
  return {
    ...list,
    every,
    from: { id: chosen?.id ?? null, name: chosen?.name ?? "the site's middle" },
    origins: origins.map((origin) => ({ id: origin.id, name: origin.name })),
  };
}

/** What is laid out and not retired, and the zones that have a sheet. */
async function contentsOf(db: Database, slug: string): Promise<SiteContents> {
  const [site, zones] = await Promise.all([contestOverview(db, slug), contestZones(db, slug)]);
  return {
    name: site.name,
    features: site.features.filter(({ retired }) => !retired),
    firingPoints: site.firingPoints.filter(({ retired }) => !retired).map(withGivenHeight),
    controlPoints: site.controlPoints.filter(({ retired }) => !retired).map(withGivenHeight),
    spotHeights: site.spotHeights.filter(({ retired }) => !retired),
    barriers: site.barriers.filter(({ retired }) => !retired),
    zones: zones.features.flatMap(({ geometry, properties }) =>
      geometry
        ? {
            name: `Zone of ${properties.machineName} from firing point ${properties.firingPointNumber}, bearing ${properties.bearing}°`,
            geometry,
            caution: CAUTION,
          }
        : [],
    ),
  };
}

const withGivenHeight = <P extends { height: number; heightGiven?: boolean | undefined }>(point: P) => ({
  ...point,
  height: point.heightGiven ? point.height : null,
});
