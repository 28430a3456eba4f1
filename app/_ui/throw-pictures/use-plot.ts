"use client";
/** A plot drawn anew in its box whenever `draw` is another. The library is fetched when it is first needed. */
import type * as Plots from "@observablehq/plot";
import { type RefObject, useEffect, useState } from "react";
import { useWidth } from "./use-width";

/** @param draw memoised by what it draws; answers null while there is nothing to draw */
export function usePlot(draw: (Plot: typeof Plots, width: number) => Element | null): {
  box: RefObject<HTMLDivElement | null>;
  /** The library could not be had: the table beside the plot says the same. */
  failed: boolean;
} {
  const [box, width] = useWidth<HTMLDivElement>(640);
  const [failed, setFailed] = useState(false);
  useEffect(() => {
    let dropped = false;
    import("@observablehq/plot")
      .then((Plot) => {
        const target = box.current;
        const plot = !dropped && target ? draw(Plot, width) : null;
        if (!plot || !target) return;
        plot.setAttribute("role", "img");
        // One picture with one name: its parts must not name themselves.
        for (const part of plot.querySelectorAll("[aria-label]")) part.removeAttribute("aria-label");
        target.replaceChildren(plot);
      })
      .catch(() => setFailed(true));
    return () => {
      dropped = true;
    };
  }, [box, width, draw]);
  return { box, failed };
}

/** What the words of every plot look like. */
export const PLOT_STYLE = { fontSize: "14px", background: "none", color: "inherit", fontFamily: "inherit" };
