/**
 * Words on the map that keep out of each other's way: every label tries a few places around its point, the
 * important ones first; one that finds no room is left off the picture (the table has it).
 */
import type * as Leaflet from "leaflet";
import type { ScenePoint } from "./scene";

export interface Label {
  at: ScenePoint;
  text: string;
  className: string;
  /** Larger goes first. Labels of 10 and more are shown even without room. */
  priority: number;
  /** Stands at its point, or close beside it, or not at all. */
  tight?: boolean;
  /** Never on its point, which has a sign of its own. */
  beside?: boolean;
}

interface Placed {
  marker: Leaflet.Marker;
  box: HTMLElement;
  priority: number;
  tight: boolean;
  beside: boolean;
}

/** Offsets of a label's centre from its point, in its own widths and heights, best first. */
const OFFSETS = [
  [0, 0],
  [0, -1],
  [0, 1],
  [0.62, 0],
  [-0.62, 0],
  [0.62, -1],
  [-0.62, -1],
  [0.62, 1],
  [-0.62, 1],
  [1.1, 0],
  [-1.1, 0],
  [0, -2.1],
  [0, 2.1],
] as const;

const BESIDE = [
  [0, 0],
  [-0.8, 0],
  [0.8, 0],
] as const;

/** Pixels that a label stays from the map's edge while its point is in sight. */
const EDGE = 4;

export function addLabels(
  L: typeof Leaflet,
  map: Leaflet.Map,
  pane: string,
  labels: readonly Label[],
): { layer: Leaflet.LayerGroup; arrange: () => void } {
  const placed: Placed[] = [];
  const layer = L.layerGroup();
  for (const label of labels) {
    // Text nodes, never HTML: names come from the database.
    const box = document.createElement("span");
    box.className = label.className;
    box.textContent = label.text;
    const marker = L.marker([label.at.latitude, label.at.longitude], {
      pane,
      icon: L.divIcon({ html: box, className: "", iconSize: [0, 0] }),
      interactive: false,
      keyboard: false,
    });
    layer.addLayer(marker);
    placed.push({
      marker,
      box,
      priority: label.priority,
      tight: label.tight ?? false,
      beside: label.beside ?? false,
    });
  }
  placed.sort((a, b) => b.priority - a.priority);

  const arrange = () => {
    const taken: { left: number; top: number; right: number; bottom: number }[] = [];
    const size = map.getSize();
    for (const { marker, box, priority, tight, beside } of placed) {
      const point = map.latLngToContainerPoint(marker.getLatLng());
      const width = box.offsetWidth;
      const height = box.offsetHeight;
      const inSight = point.x >= 0 && point.y >= 0 && point.x <= size.x && point.y <= size.y;
      const within = (start: number, length: number, whole: number) =>
        inSight ? Math.max(EDGE, Math.min(start, whole - length - EDGE)) : start;
      const offsets = tight ? BESIDE : beside ? OFFSETS.slice(1) : OFFSETS;
      const places = offsets.map(([x, y]) => {
        const left = within(point.x + x * width - width / 2, width, size.x);
        const top = within(point.y + y * height - height / 2, height, size.y);
        return { left, top, right: left + width, bottom: top + height };
      });
      const free = places.find((place) =>
        taken.every(
          (other) =>
            place.right < other.left ||
            place.left > other.right ||
            place.bottom < other.top ||
            place.top > other.bottom,
        ),
      );
      const place = free ?? (priority >= 10 && !tight ? places[0] : undefined);
      box.style.visibility = place ? "visible" : "hidden";
      if (!place) continue;
      taken.push(place);
      box.style.transform = `translate(${place.left - point.x}px, ${place.top - point.y}px)`;
    }
  };
  return { layer, arrange };
}
