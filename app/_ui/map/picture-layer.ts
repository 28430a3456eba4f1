/** A picture on a Leaflet map, turned and stretched onto three points of the ground by a matrix. */
import type * as Leaflet from "leaflet";
import type { ScenePicture, ScenePoint } from "./scene";

/** Adds it; returns how to change its strength and how to take it away. */
export function addPicture(
  L: typeof Leaflet,
  map: Leaflet.Map,
  picture: ScenePicture,
  opacity: number,
): { fade: (opacity: number) => void; remove: () => void } {
  const image = document.createElement("img");
  image.alt = "";
  image.decoding = "async";
  image.draggable = false;
  // Leaflet's own sheet has rules for pictures in its panes: no limit of width, no events.
  image.className = "leaflet-image-layer";
  image.style.cssText = "position:absolute;left:0;top:0;transform-origin:0 0;max-width:none";
  image.style.width = `${picture.width}px`;
  image.style.height = `${picture.height}px`;
  image.style.opacity = String(opacity);
  image.src = picture.url;
  map.getPane("picture")?.append(image);

  const lay = () => {
    const [origin, right, down] = picture.corners.map((corner) => pixelOf(L, map, corner));
    if (!origin || !right || !down) return;
    const across = [(right.x - origin.x) / picture.width, (right.y - origin.y) / picture.width];
    const along = [(down.x - origin.x) / picture.height, (down.y - origin.y) / picture.height];
    image.style.transform = `matrix(${[...across, ...along, origin.x, origin.y].join(",")})`;
  };
  lay();
  map.on("zoom viewreset", lay);
  return {
    fade: (next) => {
      image.style.opacity = String(next);
    },
    remove: () => {
      map.off("zoom viewreset", lay);
      image.remove();
    },
  };
}

/** Not rounded to whole pixels as Leaflet's own: small pictures would lean. */
function pixelOf(L: typeof Leaflet, map: Leaflet.Map, { latitude, longitude }: ScenePoint) {
  return map.project(L.latLng(latitude, longitude)).subtract(map.getPixelOrigin());
}
