"use client";
/**
 * A picture of two canvases: what stands still is drawn when the picture changes, what moves for each instant. Both in
 * the screen's own pixels.
 */
import { type RefObject, useEffect, useRef } from "react";
import type { FilmInstant } from "@/lib/throw";
import styles from "../film.module.css";
import type { Brush } from "./brush";

export interface Scene {
  width: number;
  height: number;
  still: (brush: Brush) => void;
  moving: (brush: Brush, instant: FilmInstant) => void;
}

/** Those who paint an instant as soon as it is shown, outside of React: sixty times a second. */
export type Painters = Set<(instant: FilmInstant) => void>;

export function Layers({
  scene,
  painters,
  shown,
  label,
}: {
  scene: Scene;
  painters: RefObject<Painters>;
  /** The instant to draw when the scene changes. */
  shown: RefObject<FilmInstant | null>;
  label: string;
}) {
  const below = useRef<HTMLCanvasElement>(null);
  const above = useRef<HTMLCanvasElement>(null);
  const { width, height } = scene;

  useEffect(() => {
    const stillBrush = brushOf(below.current, width, height);
    const brush = brushOf(above.current, width, height);
    if (!stillBrush || !brush) return;
    scene.still(stillBrush);
    const paint = (instant: FilmInstant) => {
      brush.clearRect(0, 0, width, height);
      scene.moving(brush, instant);
    };
    if (shown.current) paint(shown.current);
    const all = painters.current;
    all.add(paint);
    return () => {
      all.delete(paint);
    };
  }, [scene, width, height, painters, shown]);

  return (
    <div className={styles.layers} style={{ height }} role="img" aria-label={label}>
      <canvas ref={below} style={{ width, height }} />
      <canvas ref={above} style={{ width, height }} />
    </div>
  );
}

/** A blank canvas of this size in CSS pixels. */
function brushOf(canvas: HTMLCanvasElement | null, width: number, height: number): Brush | null {
  const brush = canvas?.getContext("2d") ?? null;
  if (!canvas || !brush) return null;
  const ratio = window.devicePixelRatio || 1;
  canvas.width = Math.round(width * ratio);
  canvas.height = Math.round(height * ratio);
  brush.setTransform(ratio, 0, 0, ratio, 0, 0);
  return brush;
}
