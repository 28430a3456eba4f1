"use client";
/**
 * The site with one machine that can be dragged and turned. Its zone is drawn anew from the stored reach with every
 * frame; what is tried is dashed and says that it is not saved.
 */
import "leaflet/dist/leaflet.css";
import type { Geometry, Polygon } from "geojson";
import type * as Leaflet from "leaflet";
import { useEffect, useMemo, useRef, useState } from "react";
import { drawScene, makePanes } from "@/app/_ui/map/draw";
import mapStyles from "@/app/_ui/map/map.module.css";
import { geometryNear, pointNear, pointWithin, sceneNear } from "@/app/_ui/map/near";
import { MapPatterns, PATTERN } from "@/app/_ui/map/patterns";
import { asFeature, type MapScene, sceneBounds } from "@/app/_ui/map/scene";
import type { Opened } from "@/app/_ui/map/site-map";
import { RING, type RingArcs, ringPicture } from "@/app/_ui/zones/ring";
import type { UnitSystem } from "@/lib/units";
import styles from "./placing.module.css";
import { type Stand, zoneOf } from "./trial";

export interface Shown {
  stand: Stand;
  bearing: number;
  reach: readonly number[];
  name: string;
  /** Where it stands by the record. */
  saved: boolean;
}

interface PlacingMapProps {
  /** Features and firing points. */
  scene: MapScene;
  /** Zones of the others, or of a plan, as outlines. */
  others: readonly Polygon[];
  /** Features as a cure would have them. */
  moved: readonly Geometry[];
  shown: Shown | null;
  ring: RingArcs | null;
  onDrop: (at: { latitude: number; longitude: number }) => void;
  system: UnitSystem;
  describedBy: string;
}

const latLngs = (zone: Polygon, meridian: number): [number, number][] =>
  (geometryNear(zone, meridian).coordinates[0] ?? []).map(([longitude, latitude]) => [
    latitude as number,
    longitude as number,
  ]);

export function PlacingMap({
  scene: given,
  others,
  moved,
  shown,
  ring,
  onDrop,
  system,
  describedBy,
}: PlacingMapProps) {
  const scene = useMemo(() => sceneNear(given), [given]);
  const { meridian } = scene;
  const box = useRef<HTMLDivElement>(null);
  const [opened, setOpened] = useState<Opened | null>(null);
  const dropped = useRef(onDrop);
  dropped.current = onDrop;
  const bounds = sceneBounds(scene);
  const first = useRef(bounds);

  useEffect(() => {
    let map: Leaflet.Map | undefined;
    let gone = false;
    // Leaflet touches `window` when it is loaded, so it is loaded here and not on the server.
    import("leaflet").then(({ default: L }) => {
      if (gone || !box.current) return;
      map = L.map(box.current, {
        attributionControl: false,
        zoomSnap: 0.25,
        minZoom: 8,
        maxZoom: 22,
        scrollWheelZoom: false,
        zoomAnimation: false,
      });
      L.control.scale({ maxWidth: 140 }).addTo(map);
      makePanes(map);
      const around = first.current;
      if (around)
        map.fitBounds(
          [
            [around.south, around.west],
            [around.north, around.east],
          ],
          { padding: [18, 18], animate: false },
        );
      setOpened({ L, map, meridian });
    });
    return () => {
      gone = true;
      map?.remove();
      setOpened(null);
    };
  }, [meridian]);

  useEffect(() => {
    if (opened?.map.getContainer().isConnected) return drawScene(opened.L, opened.map, scene, [], system);
  }, [opened, scene, system]);

  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const { L, map, meridian } = opened;
    const layer = L.layerGroup();
    for (const zone of others)
      layer.addLayer(
        L.polygon(latLngs(zone, meridian), {
          pane: "zones",
          interactive: false,
          className: mapStyles.zoneEdge ?? "",
          weight: 1.5,
          dashArray: "1 5",
          fill: false,
        }),
      );
    for (const geometry of moved)
      layer.addLayer(
        L.geoJSON(asFeature(geometryNear(geometry, meridian)), {
          pane: "touches",
          interactive: false,
          style: { className: styles.moved ?? "", weight: 3, dashArray: "8 6", fill: false },
          pointToLayer: (_, at) => L.circleMarker(at, { pane: "touches", radius: 9, interactive: false }),
        }),
      );
    layer.addTo(map);
    return () => {
      layer.remove();
    };
  }, [opened, others, moved]);

  const machine = useMachine(opened, box, (at) => dropped.current(at));
  useEffect(() => {
    if (opened) machine(shown, ring);
  }, [opened, machine, shown, ring]);

  return (
    <div className={mapStyles.frame}>
      <MapPatterns />
      <div
        ref={box}
        className={mapStyles.canvas}
        role="region"
        aria-label="Map of places. Arrow keys move it, plus and minus zoom; the fields beside it place the machine."
        aria-describedby={describedBy}
        data-ready={opened ? "yes" : "no"}
      />
    </div>
  );
}

interface Drawn {
  zone: Leaflet.Polygon;
  handle: Leaflet.Marker;
  label: HTMLElement;
  now: Shown;
}

/** The one machine, kept from frame to frame: only its outline changes. */
function useMachine(
  opened: Opened | null,
  box: React.RefObject<HTMLDivElement | null>,
  onDrop: (at: { latitude: number; longitude: number }) => void,
): (shown: Shown | null, ring: RingArcs | null) => void {
  const drawn = useRef<Drawn | null>(null);
  const drop = useRef(onDrop);
  drop.current = onDrop;
  const draw = useRef<(shown: Shown | null, ring: RingArcs | null) => void>(() => {});

  useEffect(() => {
    if (!opened) return;
    const { L, map, meridian } = opened;
    let frames = 0;
    const outline = (shown: Shown) => {
      drawn.current?.zone.setLatLngs(latLngs(zoneOf(shown.stand, shown.bearing, shown.reach), meridian));
      if (box.current) box.current.dataset.drawn = String(++frames);
    };
    const placeOf = ({ stand }: Shown): [number, number] => {
      const { latitude, longitude } = pointNear(stand, meridian);
      return [latitude, longitude];
    };
    const standing = (marker: Leaflet.Marker) => {
      const { lat: latitude, lng: longitude } = marker.getLatLng();
      return pointWithin({ latitude, longitude });
    };
    const make = (shown: Shown): Drawn => {
      const zone = L.polygon([], {
        pane: "zones",
        interactive: false,
        className: mapStyles.zoneEdge ?? "",
        weight: 3,
        fill: true,
        fillOpacity: 1,
        fillColor: `url(#${PATTERN.zone})`,
      }).addTo(map);
      // The others' zones are drawn anew whenever they change: this one is told from them.
      zone.getElement()?.setAttribute("data-placed", "yes");
      const label = document.createElement("span");
      label.className = styles.label ?? "";
      const handle = L.marker(placeOf(shown), {
        draggable: true,
        autoPan: true,
        // The fields beside the map do the same by keyboard.
        keyboard: false,
        icon: L.divIcon({ html: "", className: styles.handle ?? "", iconSize: [48, 48] }),
      }).addTo(map);
      let asked = 0;
      handle.on("drag", () => {
        cancelAnimationFrame(asked);
        asked = requestAnimationFrame(() => {
          const own = drawn.current;
          if (!own) return;
          label.textContent = `${own.now.name}: not saved`;
          outline({ ...own.now, stand: { ...own.now.stand, ...standing(handle) } });
        });
      });
      handle.on("dragend", () => {
        cancelAnimationFrame(asked);
        drop.current(standing(handle));
      });
      return { zone, handle, label, now: shown };
    };
    const remove = () => {
      drawn.current?.zone.remove();
      drawn.current?.handle.remove();
      drawn.current = null;
    };
    draw.current = (shown, ring) => {
      if (!shown) return remove();
      drawn.current ??= make(shown);
      const own = drawn.current;
      own.now = shown;
      own.handle.setLatLng(placeOf(shown));
      own.label.textContent = shown.saved ? shown.name : `${shown.name}: not saved`;
      const picture = ringPicture(ring, shown.bearing);
      picture.style.margin = `${24 - RING}px 0 0 ${24 - RING}px`;
      own.handle.getElement()?.replaceChildren(picture, own.label);
      own.zone.getElement()?.setAttribute("stroke-dasharray", shown.saved ? "none" : "10 7");
      outline(shown);
    };
    return () => {
      remove();
      draw.current = () => {};
    };
  }, [opened, box]);

  const [stable] = useState(() => (shown: Shown | null, ring: RingArcs | null) => draw.current(shown, ring));
  return stable;
}
