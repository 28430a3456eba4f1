"use client";
/** Positions of this phone, one after the other, while it lies on the landing point. */
import { useEffect, useRef, useState } from "react";
import { Button } from "@/app/_ui/button";
import { positionText } from "@/app/_ui/position";
import { quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { POSITION, type Values } from "./draft";

/** As many as the contract takes. */
const MOST = 600;

export function SampleTaker({ onSamples }: { onSamples: (rows: Values[]) => void }) {
  const system = useUnits();
  const [taken, setTaken] = useState<Values[] | null>(null);
  const [trouble, setTrouble] = useState<string | null>(null);
  const stop = useRef<(() => void) | null>(null);
  const given = useRef(onSamples);
  given.current = onSamples;
  useEffect(() => () => stop.current?.(), []);

  const start = () => {
    if (!window.isSecureContext || !("geolocation" in navigator)) {
      setTrouble("This page did not come over https, so the phone does not give its position. Type them in.");
      return;
    }
    const rows: Values[] = [];
    let first: number | null = null;
    setTaken(rows);
    setTrouble(null);
    const watch = navigator.geolocation.watchPosition(
      ({ coords, timestamp }) => {
        first ??= timestamp;
        if (rows.length >= MOST) return;
        rows.push({
          [POSITION]: positionText(coords),
          accuracy: quantityOf(coords.accuracy, "distance", system),
          seconds: quantityOf((timestamp - first) / 1000, "time", system),
        });
        setTaken([...rows]);
        given.current([...rows]);
      },
      () => setTrouble("This phone finds no position. Wait under open sky, or type it."),
      { enableHighAccuracy: true, maximumAge: 0 },
    );
    stop.current = () => navigator.geolocation.clearWatch(watch);
  };
  const end = () => {
    stop.current?.();
    stop.current = null;
    setTaken(null);
  };
  return (
    <>
      <Button look="main" wide onClick={taken ? end : start}>
        {taken ? `Stop: ${taken.length} positions so far` : "Measure with this phone"}
      </Button>
      <p className="field-help" role="status">
        {trouble ?? (taken ? "Leave the phone on the landing point, a minute or more." : null)}
      </p>
    </>
  );
}
