"use client";
/** The site's map with the lines of sight, the rough point with its ellipse, and the phone. Needs no network. */
import { useEffect, useMemo, useState } from "react";
import { marksOf, picturesOf } from "@/app/_ui/map/laid-out";
import { MapLegend } from "@/app/_ui/map/legend";
import { pointNear } from "@/app/_ui/map/near";
import { type Opened, SiteMap } from "@/app/_ui/map/site-map";
import { kindsIn, type Site, sceneOf } from "@/app/_ui/zones/scene-of";
import type { ShotInfo } from "@/lib/api/contracts";
import { type GeoPoint, groundDirect } from "@/lib/earth";
import type { UnitSystem } from "@/lib/units";
import type { PhoneFix } from "../walk/use-position";
import styles from "./splash.module.css";

const NONE: readonly string[] = [];
/** A line of sight without a crossing is drawn so long, m. */
const SIGHT = 300;
const CORNERS = 48;

export function SplashMap({
  slug,
  site,
  shot,
  phone,
  height,
  system,
  describedBy,
}: {
  slug: string;
  site: Site;
  shot: ShotInfo;
  phone: PhoneFix | null;
  height: number;
  system: UnitSystem;
  describedBy: string;
}) {
  const [opened, setOpened] = useState<Opened | null>(null);
  const scene = useMemo(
    () => ({
      ...sceneOf(site),
      marks: marksOf({ ...site, spotHeights: [] }, system),
      pictures: picturesOf(slug, site.aerialPictures),
    }),
    [site, slug, system],
  );
  const lines = useMemo(() => linesOf(shot, site, height), [shot, site, height]);

  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const { L, map } = opened;
    const layer = L.layerGroup();
    const still = { pane: "points", interactive: false } as const;
    for (const line of lines.sights)
      layer.addLayer(
        L.polyline(line, { ...still, className: styles.sight ?? "", weight: 2, dashArray: "8 6" }),
      );
    if (lines.ellipse)
      layer.addLayer(L.polygon(lines.ellipse, { ...still, className: styles.ellipse ?? "", weight: 3 }));
    if (lines.point)
      layer.addLayer(
        L.circleMarker(lines.point, { ...still, radius: 5, weight: 3, className: styles.splash ?? "" }),
      );
    layer.addTo(map);
    const shown = [...(lines.ellipse ?? []), ...lines.sights.map(([from]) => from)];
    if (lines.ellipse)
      map.fitBounds(L.latLngBounds(shown as [number, number][]), { padding: [36, 36], animate: false });
    return () => {
      layer.remove();
    };
  }, [opened, lines]);

  useEffect(() => {
    if (!phone || !opened?.map.getContainer().isConnected) return;
    const { L, map, meridian } = opened;
    const at = latLngNear(phone, meridian);
    const still = { pane: "points", interactive: false } as const;
    const own = L.layerGroup([
      L.circle(at, { ...still, radius: phone.accuracy, weight: 1.5, className: styles.within ?? "" }),
      L.circleMarker(at, { ...still, radius: 7, weight: 3, className: styles.phone ?? "" }),
    ]).addTo(map);
    return () => {
      own.remove();
    };
  }, [opened, phone]);

  return (
    <>
      <SiteMap scene={scene} shown={NONE} system={system} describedBy={describedBy} onOpen={setOpened} />
      <p className={styles.signs}>
        Dashed: lines of sight from the posts. Ellipse: where to search. {phone && "Filled dot: this phone."}
      </p>
      <MapLegend
        kinds={kindsIn(scene)}
        zones={false}
        conflicts={false}
        controlPoints={scene.marks.length > 0}
      />
    </>
  );
}

type LatLng = [number, number];
const latLngNear = (point: GeoPoint, meridian: number): LatLng => {
  const { latitude, longitude } = pointNear(point, meridian);
  return [latitude, longitude];
};

function linesOf(
  { sightings, rough }: ShotInfo,
  { controlPoints, longitude: meridian }: Pick<Site, "controlPoints" | "longitude">,
  height: number,
): { sights: LatLng[][]; ellipse: LatLng[] | null; point: LatLng | null } {
  const latLng = (point: GeoPoint) => latLngNear(point, meridian);
  const located = rough?.located ?? null;
  const sights = sightings.flatMap(({ from, trueBearing }) => {
    const post = controlPoints.find(({ id }) => id === from);
    return post && trueBearing !== null
      ? [[latLng(post), latLng(groundDirect(post, trueBearing, SIGHT, height))]]
      : [];
  });
  if (!located) return { sights, ellipse: null, point: null };
  const { major, minor, bearing } = located.ellipse;
  const ellipse = Array.from({ length: CORNERS }, (_, index) => {
    const angle = (2 * Math.PI * index) / CORNERS;
    const [along, across] = [major * Math.cos(angle), minor * Math.sin(angle)];
    const turned = bearing + (Math.atan2(across, along) * 180) / Math.PI;
    return latLng(groundDirect(located, turned, Math.hypot(along, across), height));
  });
  return { sights, ellipse, point: latLng(located) };
}
