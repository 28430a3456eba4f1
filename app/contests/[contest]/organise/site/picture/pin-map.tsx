"use client";
/** The picture by itself, to look at closely and to put pins on. */
import "leaflet/dist/leaflet.css";
import type * as Leaflet from "leaflet";
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import styles from "./picture.module.css";
import type { PinEntry } from "./pins";

interface Pixel {
  x: number;
  y: number;
}

export function PinMap({
  url,
  width,
  height,
  pins,
  onPin,
  onMove,
}: {
  url: string;
  width: number;
  height: number;
  pins: readonly PinEntry[];
  onPin: (at: Pixel) => void;
  onMove: (index: number, to: Pixel) => void;
}) {
  const box = useRef<HTMLDivElement>(null);
  const [opened, setOpened] = useState<{ L: typeof Leaflet; map: Leaflet.Map } | null>(null);
  const heard = useRef({ onPin, onMove });
  heard.current = { onPin, onMove };

  useEffect(() => {
    let map: Leaflet.Map | undefined;
    let gone = false;
    import("leaflet").then(({ default: L }) => {
      if (gone || !box.current) return;
      const whole = L.latLngBounds([-height, 0], [0, width]);
      map = L.map(box.current, {
        crs: L.CRS.Simple,
        attributionControl: false,
        minZoom: -6,
        maxZoom: 4,
        zoomSnap: 0.25,
        scrollWheelZoom: false,
        doubleClickZoom: false,
        zoomAnimation: false,
        maxBounds: whole.pad(0.5),
      });
      L.imageOverlay(url, whole).addTo(map);
      map.fitBounds(whole, { animate: false });
      map.on("click", ({ latlng }) => heard.current.onPin(pixelAt(latlng)));
      setOpened({ L, map });
    });
    return () => {
      gone = true;
      map?.remove();
      setOpened(null);
    };
  }, [url, width, height]);

  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const { L, map } = opened;
    const layer = L.layerGroup().addTo(map);
    pins.forEach(({ x, y }, index) => {
      const dot = document.createElement("span");
      dot.className = styles.pin ?? "";
      dot.textContent = String(index + 1);
      const icon = L.divIcon({ html: dot, className: styles.pinTouch ?? "", iconSize: [44, 44] });
      const marker = L.marker([-y, x], { icon, draggable: true, autoPan: true, keyboard: false });
      marker.on("dragend", () => heard.current.onMove(index, pixelAt(marker.getLatLng())));
      layer.addLayer(marker);
    });
    return () => {
      if (map.getContainer().isConnected) layer.remove();
    };
  }, [opened, pins]);

  return (
    <>
      <div
        ref={box}
        className={styles.picture}
        role="region"
        aria-label="The picture. Arrow keys move it, plus and minus zoom; pins stand in the table below."
        data-ready={opened ? "yes" : "no"}
      />
      <Button onClick={() => opened && onPin(pixelAt(opened.map.getCenter()))} disabled={!opened}>
        Pin the middle of what is shown
      </Button>
    </>
  );
}

/** To a tenth of a pixel: nobody points more finely. */
const tenth = (value: number) => Math.round(value * 10) / 10;
const pixelAt = ({ lat, lng }: Leaflet.LatLng): Pixel => ({ x: tenth(lng), y: tenth(-lat) });
