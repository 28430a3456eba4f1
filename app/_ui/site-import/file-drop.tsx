"use client";
/** Choosing a file: by a button, which keyboards and phones have, or by dropping it. */
import { useId, useState } from "react";
import styles from "./site-import.module.css";

export function FileDrop({ busy, onFile }: { busy: boolean; onFile: (file: File) => void }) {
  const id = useId();
  const [over, setOver] = useState(false);
  return (
    // biome-ignore lint/a11y/noStaticElementInteractions: dropping is a second way; the field inside is the first
    <div
      className={styles.drop}
      data-over={over || undefined}
      onDragOver={(event) => {
        event.preventDefault();
        setOver(true);
      }}
      onDragLeave={() => setOver(false)}
      onDrop={(event) => {
        event.preventDefault();
        setOver(false);
        const [file] = event.dataTransfer.files;
        if (file && !busy) onFile(file);
      }}
    >
      <div className="field">
        <label htmlFor={id}>File of the site</label>
        <p className="field-help" id={`${id}-help`}>
          GeoJSON, KML, KMZ, GPX, or CSV with the columns name, latitude, longitude, height, kind; in WGS 84,
          at most 5&nbsp;MB. Choose it, or drop it here. Nothing changes before you confirm.
        </p>
        <input
          id={id}
          type="file"
          accept=".geojson,.json,.kml,.kmz,.gpx,.csv,.tsv,.txt"
          aria-describedby={`${id}-help`}
          disabled={busy}
          onChange={(event) => {
            const file = event.currentTarget.files?.[0];
            // The same file may be chosen again after it was put right.
            event.currentTarget.value = "";
            if (file) onFile(file);
          }}
        />
      </div>
    </div>
  );
}
