"use client";
/** The ring of clear bearings around a firing point of a map. The table beside the map says the same. */
import { useEffect } from "react";
import { pointNear } from "../map/near";
import type { ScenePoint } from "../map/scene";
import type { Opened } from "../map/site-map";
import { RING, type RingArcs, ringPicture } from "./ring";

export interface Ringed {
  at: ScenePoint;
  arcs: RingArcs;
  bearing: number;
}

/** @param ringed null while nothing is known of this place: then there is no ring */
export function useRing(opened: Opened | null, ringed: Ringed | null): void {
  useEffect(() => {
    if (!ringed || !opened?.map.getContainer().isConnected) return;
    const { L, map, meridian } = opened;
    const { latitude, longitude } = pointNear(ringed.at, meridian);
    const ring = L.marker([latitude, longitude], {
      // Below points and labels: on a small map it would strike out their words.
      pane: "ring",
      interactive: false,
      keyboard: false,
      icon: L.divIcon({ html: "", className: "", iconSize: [0, 0] }),
    }).addTo(map);
    const picture = ringPicture(ringed.arcs, ringed.bearing);
    picture.style.margin = `${-RING}px 0 0 ${-RING}px`;
    ring.getElement()?.append(picture);
    return () => {
      ring.remove();
    };
  }, [opened, ringed]);
}
