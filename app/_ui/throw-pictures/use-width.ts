"use client";
import { type RefObject, useLayoutEffect, useRef, useState } from "react";

/** An element's inner width in whole pixels, so that a picture's words keep their size on every screen. */
export function useWidth<E extends HTMLElement>(before: number): [RefObject<E | null>, number] {
  const element = useRef<E>(null);
  const [width, setWidth] = useState(before);
  useLayoutEffect(() => {
    const found = element.current;
    if (!found) return;
    const measure = () => setWidth(Math.max(240, Math.floor(found.clientWidth)));
    measure();
    const observer = new ResizeObserver(measure);
    observer.observe(found);
    return () => observer.disconnect();
  }, []);
  return [element, width];
}
