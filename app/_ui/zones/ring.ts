/** The ring of clear bearings as an SVG picture: north up, whatever the map's scale. */

import styles from "./ring.module.css";

/** Half its width, px. */
export const RING = 78;

/** Thick and plain where it is clear; thin, broken and red where it is not, so that colour is not the only sign. */
export interface RingArcs {
  clear: readonly { from: number; to: number }[];
  blocked: readonly { from: number; to: number }[];
}

const SVG = "http://www.w3.org/2000/svg";

function arcPath(from: number, to: number, radius: number): string {
  const at = (bearing: number) => {
    const angle = (bearing * Math.PI) / 180;
    return `${(RING + radius * Math.sin(angle)).toFixed(2)} ${(RING - radius * Math.cos(angle)).toFixed(2)}`;
  };
  const wide = to - from;
  if (wide < 359.5) return `M${at(from)}A${radius} ${radius} 0 ${wide > 180 ? 1 : 0} 1 ${at(to)}`;
  const half = `A${radius} ${radius} 0 0 1`;
  return `M${at(0)}${half} ${at(180)}${half} ${at(360)}`;
}

/** An element to hang on the map or beside it. */
export function ringPicture(arcs: RingArcs | null, bearing: number): SVGSVGElement {
  const picture = document.createElementNS(SVG, "svg");
  picture.setAttribute("viewBox", `0 0 ${2 * RING} ${2 * RING}`);
  picture.setAttribute("width", String(2 * RING));
  picture.setAttribute("height", String(2 * RING));
  picture.setAttribute("class", styles.ring ?? "");
  picture.setAttribute("aria-hidden", "true");
  const add = (d: string, className: string) => {
    const path = document.createElementNS(SVG, "path");
    path.setAttribute("d", d);
    path.setAttribute("class", className);
    picture.append(path);
  };
  for (const { from, to } of arcs?.blocked ?? []) add(arcPath(from, to, RING - 12), styles.blocked ?? "");
  for (const { from, to } of arcs?.clear ?? []) {
    // A single bearing is drawn a degree wide, or it would not show.
    const end = Math.max(to, from + 1);
    add(arcPath(from, end, RING - 12), styles.clearEdge ?? "");
    add(arcPath(from, end, RING - 12), styles.clear ?? "");
  }
  const angle = (bearing * Math.PI) / 180;
  const tip = (radius: number, aside = 0) =>
    `${RING + radius * Math.sin(angle + aside)} ${RING - radius * Math.cos(angle + aside)}`;
  add(
    `M${RING} ${RING}L${tip(RING - 22)}M${tip(RING - 34, 0.14)}L${tip(RING - 20)}L${tip(RING - 34, -0.14)}`,
    styles.aim ?? "",
  );
  return picture;
}
