/** The hatchings of the map, so that no meaning hangs on colour alone. One copy a page serves map and legend. */
import styles from "./map.module.css";

/** Ids are fixed: Leaflet writes them into its own SVG, which may refer to any pattern of the document. */
export const PATTERN = {
  zone: "fairthrow-zone",
  /** Hatching without a tint, for many zones one over the other. */
  zones: "fairthrow-zones",
  touch: "fairthrow-touch",
  crowd: "fairthrow-crowd",
  water: "fairthrow-water",
  parking: "fairthrow-parking",
} as const;

/** The id of the same hatching in another drawing of the page, at another size. */
export const patternIn = (drawing: string, pattern: string): string => `${drawing}-${pattern}`;

export function MapPatterns() {
  return (
    <svg className={styles.patterns} aria-hidden="true" focusable="false">
      <PatternDefs />
    </svg>
  );
}

/** Of one drawing: its own ids, and its own unit in pixels. */
export function PatternDefs({ drawing, scale = 1 }: { drawing?: string; scale?: number }) {
  const id = (pattern: string) => (drawing ? patternIn(drawing, pattern) : pattern);
  return (
    <defs>
      <pattern
        id={id(PATTERN.zone)}
        width="14"
        height="14"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale}) rotate(45)`}
      >
        <rect className={styles.dangerTint} width="14" height="14" />
        <rect className={styles.dangerInk} width="2" height="14" />
      </pattern>
      <pattern
        id={id(PATTERN.zones)}
        width="14"
        height="14"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale}) rotate(45)`}
      >
        <rect className={styles.dangerInk} width="2" height="14" />
      </pattern>
      <pattern
        id={id(PATTERN.touch)}
        width="8"
        height="8"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale}) rotate(45)`}
      >
        <rect className={styles.touchTint} width="8" height="8" />
        <path className={styles.touchInk} d="M0 0H8M0 0V8" />
      </pattern>
      <pattern
        id={id(PATTERN.crowd)}
        width="10"
        height="10"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale})`}
      >
        <rect className={styles.crowdTint} width="10" height="10" />
        <circle className={styles.crowdInk} cx="2.5" cy="2.5" r="1.6" />
        <circle className={styles.crowdInk} cx="7.5" cy="7.5" r="1.6" />
      </pattern>
      <pattern
        id={id(PATTERN.water)}
        width="16"
        height="8"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale})`}
      >
        <rect className={styles.waterTint} width="16" height="8" />
        <path className={styles.waterInk} d="M0 4q4 -4 8 0t8 0" />
      </pattern>
      <pattern
        id={id(PATTERN.parking)}
        width="9"
        height="14"
        patternUnits="userSpaceOnUse"
        patternTransform={`scale(${scale})`}
      >
        <rect className={styles.parkingTint} width="9" height="14" />
        <path className={styles.parkingInk} d="M0 0V9" />
      </pattern>
    </defs>
  );
}
