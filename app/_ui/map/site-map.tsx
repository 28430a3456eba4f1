"use client";
/**
 * The site as a vector map with no tiles: it is drawn from the scene it is given and from the program's own
 * bundle, so it goes on working when the network is gone.
 */
import "leaflet/dist/leaflet.css";
import type * as Leaflet from "leaflet";
import { useEffect, useMemo, useRef, useState } from "react";
import type { UnitSystem } from "@/lib/units";
import { drawScene, makePanes } from "./draw";
import styles from "./map.module.css";
import { sceneNear } from "./near";
import { MapPatterns } from "./patterns";
import { type Bounds, type MapScene, type ScenePoint, sceneBounds } from "./scene";
import { useUnderlay } from "./use-underlay";

export interface SiteMapProps {
  scene: MapScene;
  /** The machines whose zones are drawn. */
  shown: readonly string[];
  system: UnitSystem;
  /** Id of the table that says the same. */
  describedBy: string;
  /** What "Whole site" shows, where that is more than the scene. */
  whole?: MapScene;
  /** Where an empty site's map opens. */
  around?: ScenePoint;
  /** Told when the map is there to be drawn on, and when it is gone. */
  onOpen?: (opened: Opened | null) => void;
}

export interface Opened {
  L: typeof Leaflet;
  map: Leaflet.Map;
  /** What is drawn on it belongs within half a turn of this longitude. */
  meridian: number;
}

/** Half the side of an empty site's map, degrees of latitude: about 300 m. */
const EMPTY = 0.0027;

export function SiteMap(props: SiteMapProps) {
  const scene = useMemo(() => sceneNear(props.scene), [props.scene]);
  const whole = useMemo(() => (props.whole ? sceneNear(props.whole) : scene), [props.whole, scene]);
  const bounds = sceneBounds(whole) ?? (props.around ? boundsAround(props.around) : null);
  if (!bounds) {
    return <p className={styles.empty}>Nothing is laid out on this site yet, so there is no map to draw.</p>;
  }
  return <DrawnMap {...props} scene={scene} bounds={bounds} />;
}

function boundsAround({ latitude, longitude }: ScenePoint): Bounds {
  const across = EMPTY / Math.max(0.1, Math.cos((latitude * Math.PI) / 180));
  return {
    south: latitude - EMPTY,
    north: latitude + EMPTY,
    west: longitude - across,
    east: longitude + across,
  };
}

function DrawnMap({ scene, shown, system, describedBy, bounds, onOpen }: SiteMapProps & { bounds: Bounds }) {
  const box = useRef<HTMLDivElement>(null);
  const [opened, setOpened] = useState<Opened | null>(null);
  const { meridian } = scene;

  useEffect(() => {
    let map: Leaflet.Map | undefined;
    let resized: ResizeObserver | undefined;
    let gone = false;
    // Leaflet touches `window` when it is loaded, so it is loaded here and not on the server.
    import("leaflet").then(({ default: L }) => {
      if (gone || !box.current) return;
      const still = matchMedia("(prefers-reduced-motion: reduce)").matches;
      map = L.map(box.current, {
        attributionControl: false,
        zoomControl: true,
        zoomSnap: 0.25,
        minZoom: 8,
        maxZoom: 22,
        // A page that is scrolled past the map must not be caught by it; + and − and two fingers zoom.
        scrollWheelZoom: false,
        // An animated zoom that is under way would overrule the "Whole site" button.
        zoomAnimation: false,
        fadeAnimation: !still,
        inertia: !still,
      });
      L.control.scale({ maxWidth: 140 }).addTo(map);
      makePanes(map);
      // Its place on the page may change without the window's.
      resized = new ResizeObserver(() => map?.invalidateSize({ animate: false }));
      resized.observe(box.current);
      setOpened({ L, map, meridian });
    });
    return () => {
      gone = true;
      resized?.disconnect();
      map?.remove();
      setOpened(null);
    };
  }, [meridian]);

  // At first, and when the site itself has grown or shrunk; a reader who has zoomed in is otherwise left alone.
  const { south, west, north, east } = bounds;
  useEffect(() => {
    if (opened) fit(opened, { south, west, north, east });
  }, [opened, south, west, north, east]);

  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const zones = scene.zones.filter(({ machineId }) => shown.includes(machineId));
    return drawScene(opened.L, opened.map, scene, zones, system);
  }, [opened, scene, shown, system]);

  const underlay = useUnderlay(opened, scene.pictures);

  useEffect(() => {
    onOpen?.(opened);
  }, [opened, onOpen]);

  return (
    <>
      <div className={styles.frame}>
        <MapPatterns />
        <div
          ref={box}
          className={styles.canvas}
          role="region"
          aria-label="Site map. Arrow keys move it, plus and minus zoom; the tables below say the same."
          aria-describedby={describedBy}
          data-ready={opened ? "yes" : "no"}
        />
        <div className={styles.north} aria-hidden="true">
          <svg viewBox="0 0 24 36" width="24" height="36" aria-hidden="true" focusable="false">
            <path d="M12 1 20 22 12 17 4 22Z" fill="currentColor" />
            <text x="12" y="34" textAnchor="middle" fontSize="12" fontWeight="700" fill="currentColor">
              N
            </text>
          </svg>
        </div>
        <button
          type="button"
          className={styles.fit}
          onClick={() => opened && fit(opened, bounds)}
          disabled={!opened}
        >
          Whole site
        </button>
      </div>
      {underlay}
    </>
  );
}

function fit({ L, map }: Opened, { south, west, north, east }: Bounds) {
  map.fitBounds(L.latLngBounds([south, west], [north, east]), { padding: [18, 18], animate: false });
}
