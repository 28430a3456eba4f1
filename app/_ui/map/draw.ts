/** Draws a scene on a Leaflet map: vector layers only, nothing is fetched. */
import type * as Leaflet from "leaflet";
import type { UnitSystem } from "@/lib/units";
import { wholeDistance } from "../kept-distance";
import { featureStyle } from "./feature-style";
import { addLabels, type Label } from "./labels";
import styles from "./map.module.css";
import { PATTERN } from "./patterns";
import { asFeature, labelPlace, type MapScene, type ScenePoint, type SceneZone } from "./scene";

/** Bottom to top. */
const PANES = ["picture", "ground", "zones", "outlines", "touches", "ring", "points", "labels"] as const;

export function makePanes(map: Leaflet.Map): void {
  PANES.forEach((name, index) => {
    const pane = map.createPane(name);
    pane.style.zIndex = String(401 + index * 10);
    pane.style.pointerEvents = "none";
    // The table beside the map says the same in order; scattered words would only confuse a screen reader.
    pane.setAttribute("aria-hidden", "true");
  });
}

const latLng = ({ latitude, longitude }: ScenePoint): [number, number] => [latitude, longitude];

function drawFeatures(L: typeof Leaflet, scene: MapScene, layer: Leaflet.LayerGroup): void {
  // Areas first, lines over them.
  const area = (type: string) => (type.endsWith("Polygon") ? 0 : 1);
  const ordered = [...scene.features].sort((a, b) => area(a.geometry.type) - area(b.geometry.type));
  for (const feature of ordered) {
    const style = featureStyle(feature.kind);
    const isArea = feature.geometry.type.endsWith("Polygon") && style.className !== "boundary";
    // A class fills more strongly than Leaflet's attribute says not to; points keep theirs.
    const open = feature.geometry.type.endsWith("LineString") ? ` ${styles.open ?? ""}` : "";
    const options = (className: string, weight: number, dashes?: string): Leaflet.GeoJSONOptions => ({
      pane: "ground",
      interactive: false,
      style: {
        className: `${styles[className] ?? ""}${open}`,
        weight,
        ...(dashes ? { dashArray: dashes } : {}),
        fill: isArea,
        fillOpacity: 1,
        ...(style.pattern ? { fillColor: `url(#${style.pattern})` } : {}),
      },
      pointToLayer: (_, at) => L.circleMarker(at, { pane: "ground", radius: 7, interactive: false }),
    });
    layer.addLayer(
      L.geoJSON(
        asFeature(feature.geometry),
        options(style.pattern ? `${style.className}Edge` : style.className, style.weight, style.dashes),
      ),
    );
    if (style.over && !isArea) {
      const { className, weight, dashes } = style.over;
      layer.addLayer(L.geoJSON(asFeature(feature.geometry), options(className, weight, dashes)));
    }
  }
}

function drawZone(L: typeof Leaflet, zone: SceneZone, alone: boolean, layer: Leaflet.LayerGroup): void {
  layer.addLayer(
    L.geoJSON(asFeature(zone.polygon), {
      pane: "zones",
      interactive: false,
      style: {
        className: styles.zoneEdge ?? "",
        weight: alone ? 3 : 2,
        fill: true,
        fillOpacity: 1,
        fillColor: `url(#${alone ? PATTERN.zone : PATTERN.zones})`,
      },
    }),
  );
  const line = (to: ScenePoint, className: string, dashes?: string) =>
    L.polyline([latLng(zone.origin), latLng(to)], {
      pane: "points",
      className: styles[className] ?? "",
      weight: 2,
      interactive: false,
      ...(dashes ? { dashArray: dashes } : {}),
    });
  for (const callout of zone.callouts) {
    if (!alone && callout.which !== "forward") continue;
    layer.addLayer(
      line(
        callout.at,
        callout.which === "forward" ? "aim" : "span",
        callout.which === "forward" ? "" : "2 5",
      ),
    );
  }
}

/** Over the zones' own edges, so that what is nobody's on this day shows as one outline. */
function drawDay(L: typeof Leaflet, day: NonNullable<MapScene["day"]>, layer: Leaflet.LayerGroup): void {
  layer.addLayer(
    L.geoJSON(asFeature(day), {
      pane: "outlines",
      interactive: false,
      style: { className: styles.dayEdge ?? "", weight: 5, fill: false },
    }),
  );
}

function drawTouches(L: typeof Leaflet, scene: MapScene, zone: SceneZone, layer: Leaflet.LayerGroup): void {
  for (const conflict of zone.conflicts) {
    const feature = scene.features.find(({ id }) => id === conflict.featureId);
    const geometry = conflict.overlap ?? feature?.geometry;
    if (!geometry) continue;
    const isArea = conflict.overlap !== null && geometry.type.endsWith("Polygon");
    layer.addLayer(
      L.geoJSON(asFeature(geometry), {
        pane: "touches",
        interactive: false,
        style: {
          className: (conflict.touches ? styles.touchEdge : styles.nearEdge) ?? "",
          weight: isArea ? 3 : 7,
          ...(conflict.touches ? {} : { dashArray: "3 9" }),
          fill: isArea,
          fillOpacity: 1,
          fillColor: `url(#${PATTERN.touch})`,
        },
        pointToLayer: (_, at) => L.circleMarker(at, { pane: "touches", radius: 11, interactive: false }),
      }),
    );
  }
}

function drawPoints(L: typeof Leaflet, scene: MapScene, layer: Leaflet.LayerGroup): void {
  for (const { at } of scene.firingPoints) {
    layer.addLayer(
      L.circleMarker(latLng(at), {
        pane: "points",
        radius: 4,
        weight: 2,
        className: styles.point ?? "",
        fillOpacity: 1,
        interactive: false,
      }),
    );
  }
  for (const { what, at } of scene.marks ?? []) {
    // A peg is a triangle as on survey sheets; a height is a cross.
    const sign = document.createElementNS("http://www.w3.org/2000/svg", "svg");
    sign.setAttribute("viewBox", "0 0 16 16");
    const path = document.createElementNS("http://www.w3.org/2000/svg", "path");
    path.setAttribute("d", what === "control-point" ? "M8 1.5 15 14H1Z" : "M2 8H14M8 2V14");
    path.setAttribute("class", styles[what === "control-point" ? "peg" : "height"] ?? "");
    sign.append(path);
    layer.addLayer(
      L.marker(latLng(at), {
        pane: "points",
        icon: L.divIcon({ html: sign as unknown as HTMLElement, className: "", iconSize: [16, 16] }),
        interactive: false,
        keyboard: false,
      }),
    );
  }
}

function labelsOf(scene: MapScene, zones: readonly SceneZone[], system: UnitSystem): Label[] {
  const labels: Label[] = [];
  const alone = zones.length === 1;
  const metres = (value: number) => wholeDistance(value, system, "up");
  // Where a zone touches a feature the sign stands at that place, not in the feature's middle.
  const touched = new Map(
    zones.flatMap(({ conflicts }) =>
      conflicts
        .filter(({ touches }) => touches)
        .map(({ featureId, overlap }) => [featureId, overlap && labelPlace(overlap)] as const),
    ),
  );
  for (const feature of scene.features) {
    const hit = touched.has(feature.id);
    const at = touched.get(feature.id) ?? labelPlace(feature.geometry);
    // The boundary explains itself; its name in the middle of the field would only be in the way.
    if (!at || (feature.kind === "boundary" && !hit)) continue;
    labels.push({
      at,
      text: hit ? `⚠ ${feature.name}` : feature.name,
      className: (hit ? styles.touchLabel : styles.featureLabel) ?? "",
      priority: hit ? 15 : 1,
    });
  }
  for (const point of scene.firingPoints) {
    labels.push({
      at: point.at,
      text: String(point.number),
      className: styles.pointLabel ?? "",
      priority: 20 - point.number / 1000,
      tight: true,
    });
  }
  for (const { at, what, text } of scene.marks ?? []) {
    const className = styles.featureLabel ?? "";
    labels.push({ at, text, className, priority: what === "control-point" ? 3 : 0.5, beside: true });
  }
  for (const { share, geometry } of scene.contours ?? []) {
    const [longitude, latitude] = (geometry.coordinates[0] ?? [])[0] ?? [];
    if (longitude === undefined || latitude === undefined) continue;
    const text = `${Math.round(100 * share)} % of normal throws`;
    labels.push({ at: { longitude, latitude }, text, className: styles.featureLabel ?? "", priority: 4 });
  }
  for (const zone of zones) {
    for (const callout of zone.callouts) {
      if (!alone && callout.which !== "forward") continue;
      labels.push({
        at: callout.at,
        text: alone
          ? `${callout.which} ${metres(callout.distance)}`
          : `${zone.machine} ${metres(callout.distance)}`,
        className: styles.zoneLabel ?? "",
        priority: alone ? 10 : zone.conflicts.length > 0 ? 8 : 5,
      });
    }
  }
  return labels;
}

/** Adds everything to the map. Returns the function that takes it away again. */
export function drawScene(
  L: typeof Leaflet,
  map: Leaflet.Map,
  scene: MapScene,
  zones: readonly SceneZone[],
  system: UnitSystem,
): () => void {
  const layer = L.layerGroup();
  drawFeatures(L, scene, layer);
  for (const zone of zones) drawZone(L, zone, zones.length === 1, layer);
  if (scene.day && zones.length > 1) drawDay(L, scene.day, layer);
  for (const { geometry } of scene.contours ?? [])
    layer.addLayer(
      L.geoJSON(asFeature(geometry), {
        pane: "outlines",
        interactive: false,
        style: { className: styles.contour ?? "", weight: 2, dashArray: "6 4", fill: false },
      }),
    );
  drawPoints(L, scene, layer);
  for (const zone of zones) drawTouches(L, scene, zone, layer);
  const labels = addLabels(L, map, "labels", labelsOf(scene, zones, system));
  layer.addLayer(labels.layer);
  layer.addTo(map);
  labels.arrange();
  map.on("moveend resize", labels.arrange);
  return () => {
    map.off("moveend resize", labels.arrange);
    layer.remove();
  };
}
