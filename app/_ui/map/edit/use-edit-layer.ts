"use client";
/** Keeps the drawing on the map the same as the model, which has longitudes within ±180 on any site. */
import { useEffect, useRef } from "react";
import type { Opened } from "../site-map";
import { addEditLayer, type EditLayer } from "./layer";
import { actionWithin, type DrawAction, type Drawing, drawingNear } from "./model";
import { type Snapped, type SnapTargets, targetsNear } from "./snap";

export function useEditLayer(
  opened: Opened | null,
  drawing: Drawing | null,
  {
    dispatch,
    targets,
    caught,
  }: {
    dispatch: (action: DrawAction) => void;
    targets: SnapTargets;
    caught: (snapped: Snapped | null) => void;
  },
): void {
  const layer = useRef<Pick<EditLayer, "show"> | null>(null);
  const heard = useRef({ dispatch, targets, caught });
  heard.current = { dispatch, targets, caught };
  const latest = useRef(drawing);
  latest.current = drawing;
  const active = drawing !== null;

  useEffect(() => {
    if (!opened || !active) return;
    const { L, map, meridian } = opened;
    const near = new WeakMap<SnapTargets, SnapTargets>();
    const added = addEditLayer(L, map, {
      dispatch: (action) => heard.current.dispatch(actionWithin(action)),
      targets: () => {
        const { targets: given } = heard.current;
        const known = near.get(given) ?? targetsNear(given, meridian);
        near.set(given, known);
        return known;
      },
      caught: (snapped) => heard.current.caught(snapped),
    });
    const showing = { show: (next: Drawing) => added.show(drawingNear(next, meridian)) };
    layer.current = showing;
    if (latest.current) showing.show(latest.current);
    return () => {
      layer.current = null;
      // The map may be gone already, with everything on it.
      if (map.getContainer().isConnected) added.remove();
    };
  }, [opened, active]);

  useEffect(() => {
    if (drawing) layer.current?.show(drawing);
  }, [drawing]);
}
