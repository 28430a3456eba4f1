"use client";
/** The zone as it was drawn then, where pieces came down with what each may be off, and the zone that it would take. */
import { useEffect, useMemo, useState } from "react";
import { marksOf, picturesOf } from "@/app/_ui/map/laid-out";
import { MapLegend } from "@/app/_ui/map/legend";
import { pointNear } from "@/app/_ui/map/near";
import { type Opened, SiteMap } from "@/app/_ui/map/site-map";
import { kindsIn, type Site, sceneOf } from "@/app/_ui/zones/scene-of";
import type { IncidentInfo, IncidentPieceInfo } from "@/lib/api/contracts";
import type { UnitSystem } from "@/lib/units";
import styles from "../incidents.module.css";

type Placed = IncidentPieceInfo & { latitude: number; longitude: number };

export const placedPieces = ({ pieceList }: Pick<IncidentInfo, "pieceList">): Placed[] =>
  pieceList.filter(
    (piece): piece is Placed => !piece.replaced && piece.fix !== null && piece.latitude !== null,
  );

export function IncidentMap({
  slug,
  incident,
  site,
  system,
  describedBy,
}: {
  slug: string;
  incident: IncidentInfo;
  site: Site;
  system: UnitSystem;
  describedBy: string;
}) {
  const [opened, setOpened] = useState<Opened | null>(null);
  const { stood, needed, machineId, machineName, entrantName } = incident;
  const scene = useMemo(
    () => ({
      ...sceneOf(site),
      marks: marksOf({ ...site, spotHeights: [] }, system),
      pictures: picturesOf(slug, site.aerialPictures),
      zones: stood?.zone
        ? [
            {
              machineId,
              machine: machineName,
              entrant: entrantName,
              firingPointId: stood.firingPointId,
              origin: { latitude: stood.latitude, longitude: stood.longitude },
              bearing: stood.bearing,
              polygon: stood.zone,
              callouts: [],
              conflicts: [],
            },
          ]
        : [],
    }),
    [site, slug, system, stood, machineId, machineName, entrantName],
  );
  const shown = useMemo(() => [machineId], [machineId]);

  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const { L, map, meridian } = opened;
    const layer = L.layerGroup();
    const still = { pane: "points", interactive: false } as const;
    const near = (latitude: number, longitude: number): [number, number] => {
      const point = pointNear({ latitude, longitude }, meridian);
      return [point.latitude, point.longitude];
    };
    const ring = needed?.zone.coordinates[0]?.map(([longitude, latitude]) => near(latitude, longitude));
    if (ring)
      layer.addLayer(
        L.polygon(ring, { ...still, className: styles.needed ?? "", weight: 2, dashArray: "10 7" }),
      );
    const seen = [...(ring ?? [])];
    for (const [index, { latitude, longitude, uncertainty, outside }] of placedPieces(incident).entries()) {
      const at = near(latitude, longitude);
      seen.push(at);
      const look = { ...still, className: (outside ? styles.outside : styles.within) ?? "", weight: 2 };
      layer.addLayer(L.circle(at, { ...look, radius: uncertainty ?? 0 }));
      const dot = L.circleMarker(at, { ...still, radius: 4, weight: 2, className: styles.piece ?? "" });
      dot.bindTooltip(`${index + 1}${outside ? " OUTSIDE" : ""}`, { permanent: true, direction: "right" });
      layer.addLayer(dot);
    }
    layer.addTo(map);
    const zone = stood?.zone?.coordinates[0]?.map(([longitude, latitude]) => near(latitude, longitude));
    const all = [...seen, ...(zone ?? [])];
    if (all.length > 1) map.fitBounds(L.latLngBounds(all), { padding: [28, 28], animate: false });
    return () => {
      layer.remove();
    };
  }, [opened, incident, needed, stood]);

  return (
    <>
      <SiteMap scene={scene} shown={shown} system={system} describedBy={describedBy} onOpen={setOpened} />
      <p>
        Circles: how far a place may be off, 95 %. {needed && "Dashed: the zone that would hold every piece."}
      </p>
      <MapLegend
        kinds={kindsIn(scene)}
        zones={scene.zones.length > 0}
        conflicts={false}
        controlPoints={scene.marks.length > 0}
      />
    </>
  );
}
