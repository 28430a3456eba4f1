"use client";
/** What lies under the map's lines: pictures of the contest, online tiles where set. The reader shows and fades them. */
import type * as Leaflet from "leaflet";
import { useEffect, useId, useRef, useState } from "react";
import styles from "./map.module.css";
import { addPicture } from "./picture-layer";
import type { ScenePicture } from "./scene";
import { TILES } from "./tiles";

interface Opened {
  L: typeof Leaflet;
  map: Leaflet.Map;
}

const NONE: readonly ScenePicture[] = [];

/** Draws them on the map; answers the controls that stand below it, or null when there is nothing to lay under. */
export function useUnderlay(opened: Opened | null, pictures: readonly ScenePicture[] = NONE) {
  const id = useId();
  const [hidden, setHidden] = useState<Record<string, boolean>>({});
  const [strength, setStrength] = useState<Record<string, number>>({});
  const [online, setOnline] = useState(false);
  const drawn = useRef(new Map<string, { fade: (opacity: number) => void }>());

  const isShown = ({ id: picture, shown }: ScenePicture) => !(hidden[picture] ?? !shown);
  const shown = pictures.filter(isShown);
  const names = shown.map(({ id: picture }) => picture).join(" ");
  // biome-ignore lint/correctness/useExhaustiveDependencies: `names` stands for which are shown; fading redraws nothing
  useEffect(() => {
    if (!opened?.map.getContainer().isConnected) return;
    const added = shown.map((picture) => {
      const layer = addPicture(opened.L, opened.map, picture, strength[picture.id] ?? picture.opacity);
      drawn.current.set(picture.id, layer);
      return layer;
    });
    return () => {
      for (const { remove } of added) remove();
      drawn.current.clear();
    };
  }, [opened, pictures, names]);

  useEffect(() => {
    if (!opened || !TILES || !online) return;
    const layer = opened.L.tileLayer(TILES.url, { maxZoom: 22, maxNativeZoom: 18 });
    layer.addTo(opened.map);
    return () => {
      layer.remove();
    };
  }, [opened, online]);

  if (pictures.length === 0 && !TILES) return null;
  return (
    <div className={styles.underlay} role="group" aria-label="Under the map">
      {pictures.map((picture) => (
        <span key={picture.id} className={styles.underlay}>
          <label htmlFor={`${id}-${picture.id}`}>
            <input
              id={`${id}-${picture.id}`}
              type="checkbox"
              checked={isShown(picture)}
              onChange={(event) => setHidden({ ...hidden, [picture.id]: !event.target.checked })}
            />
            Picture: {picture.name}
          </label>
          {isShown(picture) && (
            <label>
              Strength
              <input
                type="range"
                min={5}
                max={100}
                step={5}
                value={Math.round((strength[picture.id] ?? picture.opacity) * 100)}
                aria-label={`Strength of ${picture.name}, percent`}
                onChange={(event) => {
                  const next = Number(event.target.value) / 100;
                  setStrength({ ...strength, [picture.id]: next });
                  drawn.current.get(picture.id)?.fade(next);
                }}
              />
            </label>
          )}
        </span>
      ))}
      {TILES && (
        <label htmlFor={`${id}-tiles`}>
          <input
            id={`${id}-tiles`}
            type="checkbox"
            checked={online}
            onChange={(event) => setOnline(event.target.checked)}
          />
          Online map tiles (needs a network)
        </label>
      )}
      {TILES && online && <small>{TILES.attribution}</small>}
    </div>
  );
}
