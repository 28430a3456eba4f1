/** What the hatchings of the site map mean; only the kinds that this site has. */
import { featureStyle } from "./feature-style";
import styles from "./map.module.css";
import { PATTERN } from "./patterns";

export function MapLegend({
  kinds,
  zones,
  conflicts,
  day = false,
  contours = false,
  controlPoints = false,
  spotHeights = false,
}: {
  kinds: readonly { kind: string; title: string }[];
  zones: boolean;
  conflicts: boolean;
  /** Whether the outline of all zones together is drawn. */
  day?: boolean;
  contours?: boolean;
  controlPoints?: boolean;
  spotHeights?: boolean;
}) {
  return (
    <ul className={styles.legend} aria-label="Signs on the map">
      {zones && (
        <li>
          <Swatch className="zoneEdge" fill={`url(#${PATTERN.zone})`} weight={3} />
          Keep-out zone
        </li>
      )}
      {day && (
        <li>
          <Swatch className="dayEdge" fill="none" weight={5} />
          All zones together
        </li>
      )}
      {contours && (
        <li>
          <Swatch className="contour" weight={2} dashes="6 4" />
          Normal throws only; never shrinks a zone
        </li>
      )}
      {conflicts && (
        <li>
          <Swatch className="touchEdge" fill={`url(#${PATTERN.touch})`} weight={3} />
          Zone touches what is protected
        </li>
      )}
      {conflicts && (
        <li>
          <Swatch className="nearEdge" weight={6} dashes="3 7" />
          Zone nearer than the stand-off
        </li>
      )}
      {kinds.map(({ kind, title }) => {
        const style = featureStyle(kind);
        return (
          <li key={kind}>
            {style.over || style.dashes ? (
              <LineSwatch kind={kind} />
            ) : (
              <Swatch
                className={style.pattern ? `${style.className}Edge` : style.className}
                {...(style.pattern ? { fill: `url(#${style.pattern})` } : {})}
                weight={style.weight}
              />
            )}
            {title}
          </li>
        );
      })}
      <li>
        <span className={styles.pointLabel} style={{ position: "static" }} aria-hidden="true">
          1
        </span>
        Firing point
      </li>
      {controlPoints && (
        <li>
          <svg className={styles.swatch} viewBox="0 0 34 20" aria-hidden="true" focusable="false">
            <path d="M17 3 24 16H10Z" className={styles.peg} />
          </svg>
          Control point
        </li>
      )}
      {spotHeights && (
        <li>
          <svg className={styles.swatch} viewBox="0 0 34 20" aria-hidden="true" focusable="false">
            <path d="M11 10H23M17 4V16" className={styles.height} />
          </svg>
          Height of the ground
        </li>
      )}
    </ul>
  );
}

function Swatch({
  className,
  fill,
  weight,
  dashes,
}: {
  className: string;
  fill?: string;
  weight: number;
  dashes?: string;
}) {
  return (
    <svg className={styles.swatch} viewBox="0 0 34 20" aria-hidden="true" focusable="false">
      <rect
        x="3"
        y="3"
        width="28"
        height="14"
        className={styles[className]}
        style={fill ? { fill } : {}}
        strokeWidth={weight}
        strokeDasharray={dashes}
        {...(dashes ? { fill: "none" } : {})}
      />
    </svg>
  );
}

function LineSwatch({ kind }: { kind: string }) {
  const style = featureStyle(kind);
  return (
    <svg className={styles.swatch} viewBox="0 0 34 20" aria-hidden="true" focusable="false">
      <path
        d="M1 10H33"
        className={styles[style.className]}
        strokeWidth={style.weight}
        strokeDasharray={style.dashes}
      />
      {style.over && (
        <path
          d="M1 10H33"
          className={styles[style.over.className]}
          strokeWidth={style.over.weight}
          strokeDasharray={style.over.dashes}
        />
      )}
    </svg>
  );
}
