"use client";
/** Keeps the drawing on the map the same as the model. */
import { useEffect, useRef } from "react";
import type { Opened } from "../site-map";
import { addEditLayer, type EditLayer } from "./layer";
import type { DrawAction, Drawing } from "./model";
import type { Snapped, SnapTargets } from "./snap";

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
  const layer = useRef<EditLayer | null>(null);
  const heard = useRef({ dispatch, targets, caught });
  heard.current = { dispatch, targets, caught };
  const latest = useRef(drawing);
  latest.current = drawing;
  const active = drawing !== null;

  useEffect(() => {
    if (!opened || !active) return;
    const added = addEditLayer(opened.L, opened.map, {
      dispatch: (action) => heard.current.dispatch(action),
      targets: () => heard.current.targets,
      caught: (snapped) => heard.current.caught(snapped),
    });
    layer.current = added;
    if (latest.current) added.show(latest.current);
    return () => {
      layer.current = null;
      // The map may be gone already, with everything on it.
      if (opened.map.getContainer().isConnected) added.remove();
    };
  }, [opened, active]);

  useEffect(() => {
    if (drawing) layer.current?.show(drawing);
  }, [drawing]);
}
