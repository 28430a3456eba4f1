/** The drawing on the Leaflet map: its shape, a handle for every corner, a smaller one on every edge. */
import type * as Leaflet from "leaflet";
import styles from "./edit.module.css";
import { type Corner, cornersOf, type DrawAction, type Drawing } from "./model";
import { type Snapped, type SnapTargets, snap } from "./snap";

/** How near a tap or a drag must come to catch, pixels: about a finger's slack. */
const REACH = 18;
/** A handle to touch, pixels; the dot in it is smaller. */
const TOUCH = 44;
/** Edges shorter than this on the screen get no handle of their own. */
const ROOM = 2.2 * TOUCH;
/** With more corners than this in sight their handles would only lie over each other. */
const MANY = 250;

export interface Listener {
  dispatch: (action: DrawAction) => void;
  /** What may be caught; none while catching is switched off. */
  targets: () => SnapTargets;
  /** What the last tap or drag caught. */
  caught: (snapped: Snapped | null) => void;
}

export interface EditLayer {
  show: (drawing: Drawing) => void;
  remove: () => void;
}

export function addEditLayer(L: typeof Leaflet, map: Leaflet.Map, listener: Listener): EditLayer {
  makePane(map, "edit-shape", 462);
  makePane(map, "edit-handles", 464);
  const shape = L.layerGroup().addTo(map);
  const handles = L.layerGroup().addTo(map);
  const ring = L.circleMarker([0, 0], {
    pane: "edit-shape",
    radius: 14,
    weight: 3,
    fill: false,
    className: styles.caught ?? "",
    interactive: false,
  });
  let drawing: Drawing | null = null;
  let dragging = false;

  const latLng = ({ latitude, longitude }: Corner): [number, number] => [latitude, longitude];
  const cornerAt = ({ lat, lng }: Leaflet.LatLng): Corner => ({ latitude: lat, longitude: lng });
  const pixel = (corner: Corner) => map.latLngToContainerPoint(latLng(corner));

  /** Where a tap or a drag lands: on what it catches, else where it is. */
  const landing = (at: Corner, without: number | null): Snapped | null => {
    const { corners, edges } = listener.targets();
    const own = (drawing ? cornersOf(drawing) : [])
      .filter((_, index) => index !== without)
      .map((corner) => ({ at: corner, of: "a corner of this drawing" }));
    return snap(at, { corners: [...corners, ...own], edges }, pixel, REACH);
  };
  const mark = (snapped: Snapped | null) => {
    if (snapped) ring.setLatLng(latLng(snapped.at)).addTo(map);
    else ring.remove();
  };

  const drawShape = (corners: readonly Corner[]) => {
    shape.clearLayers();
    if (!drawing) return;
    const { shape: kind, rings } = drawing.now;
    const options: Leaflet.PolylineOptions = {
      pane: "edit-shape",
      className: styles.line ?? "",
      weight: 3,
      interactive: false,
    };
    if (kind === "point") return;
    const all = rings.with(drawing.ring, corners).map((each) => each.map(latLng));
    // An area that is not one yet is shown as the line it is.
    if (kind === "area" && corners.length > 2)
      shape.addLayer(L.polygon(all, { ...options, fillOpacity: 0.18, fillColor: "#7a3a0f" }));
    else shape.addLayer(L.polyline(corners.map(latLng), options));
  };

  const handle = (
    at: Corner,
    className: string | undefined,
    text: string,
    moved: (to: Corner) => readonly Corner[],
    own: number | null,
  ) => {
    const dot = document.createElement("span");
    dot.className = className ?? "";
    dot.textContent = text;
    const marker = L.marker(latLng(at), {
      pane: "edit-handles",
      icon: L.divIcon({ html: dot, className: styles.handle ?? "", iconSize: [TOUCH, TOUCH] }),
      draggable: true,
      autoPan: true,
      keyboard: false,
    });
    let last: Snapped | null = null;
    marker.on("dragstart", () => {
      dragging = true;
    });
    marker.on("drag", () => {
      last = landing(cornerAt(marker.getLatLng()), own);
      if (last) marker.setLatLng(latLng(last.at));
      mark(last);
      drawShape(moved(cornerAt(marker.getLatLng())));
    });
    marker.on("dragend", () => {
      dragging = false;
      listener.caught(last);
    });
    handles.addLayer(marker);
    return marker;
  };

  const drawHandles = () => {
    handles.clearLayers();
    if (!drawing) return;
    const corners = cornersOf(drawing);
    const bounds = map.getBounds().pad(0.05);
    const inSight = corners.map((corner) => bounds.contains(latLng(corner)));
    if (inSight.filter(Boolean).length > MANY) return;
    const { picked, now } = drawing;
    const closes = now.shape === "area" && corners.length > 2;
    corners.forEach((corner, index) => {
      const next = corners[index + 1] ?? (closes ? corners[0] : undefined);
      if (next) drawMiddle(corner, next, index);
      if (!inSight[index]) return;
      const look = index === picked ? `${styles.dot} ${styles.picked}` : styles.dot;
      const text = now.shape === "point" ? "" : String(index + 1);
      const marker = handle(corner, look, text, (to) => corners.with(index, to), index);
      marker.on("click", () => {
        // The way to close an outline on paper: back to where it began.
        const closing = index === 0 && closes && drawing?.adding;
        listener.dispatch(closing ? { do: "adding", adding: false } : { do: "pick", index });
      });
      marker.on("dragend", () => listener.dispatch({ do: "place", index, at: cornerAt(marker.getLatLng()) }));
    });
    function drawMiddle(from: Corner, to: Corner, index: number) {
      const [a, b] = [pixel(from), pixel(to)];
      if (now.shape === "point" || a.distanceTo(b) < ROOM) return;
      const at = {
        latitude: (from.latitude + to.latitude) / 2,
        longitude: (from.longitude + to.longitude) / 2,
      };
      if (!bounds.contains(latLng(at))) return;
      const marker = handle(at, styles.middle, "+", (place) => corners.toSpliced(index + 1, 0, place), null);
      const insert = () =>
        listener.dispatch({ do: "insert", index: index + 1, at: cornerAt(marker.getLatLng()) });
      marker.on("click", insert).on("dragend", insert);
    }
  };

  const tapped = ({ latlng }: Leaflet.LeafletMouseEvent) => {
    if (!drawing) return;
    if (!drawing.adding) {
      listener.dispatch({ do: "pick", index: null });
      return;
    }
    const at = cornerAt(latlng);
    const caught = landing(at, drawing.now.shape === "point" ? 0 : null);
    mark(caught);
    listener.caught(caught);
    listener.dispatch({ do: "add", at: caught?.at ?? at });
  };
  const hovered = ({ latlng }: Leaflet.LeafletMouseEvent) => {
    if (!dragging && drawing?.adding) mark(landing(cornerAt(latlng), null));
  };
  const moved = () => {
    if (!dragging) drawHandles();
  };
  map.on("click", tapped).on("mousemove", hovered).on("moveend resize", moved);
  map.doubleClickZoom.disable();

  return {
    show(next) {
      drawing = next;
      map.getContainer().classList.toggle(styles.adding ?? "", next.adding);
      drawShape(cornersOf(next));
      if (!dragging) drawHandles();
    },
    remove() {
      map.off("click", tapped).off("mousemove", hovered).off("moveend resize", moved);
      map.doubleClickZoom.enable();
      map.getContainer().classList.remove(styles.adding ?? "");
      for (const layer of [shape, handles, ring]) layer.remove();
    },
  };
}

function makePane(map: Leaflet.Map, name: string, zIndex: number): void {
  if (map.getPane(name)) return;
  const pane = map.createPane(name);
  pane.style.zIndex = String(zIndex);
  // The table of corners says and does the same.
  pane.setAttribute("aria-hidden", "true");
}
