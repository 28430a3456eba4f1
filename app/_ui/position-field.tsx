"use client";
/** One field for latitude and longitude, with what was read beside it, and the phone's own position where it may. */
import { type ReactNode, useEffect, useState } from "react";
import { Button } from "./button";
import { TextField } from "./field";
import { positionText, readPosition } from "./position";
import styles from "./position-field.module.css";

export interface PhonePosition {
  latitude: number;
  longitude: number;
  /** m, as the phone says: 95 % of its positions lie within. */
  accuracy: number;
}

export function PositionField({
  id,
  label = "Latitude, longitude",
  help,
  text,
  onChange,
  onPhone,
  error,
}: {
  id: string;
  label?: ReactNode;
  help?: ReactNode;
  text: string;
  onChange: (text: string) => void;
  /** When the phone's own position was taken. */
  onPhone?: (position: PhonePosition) => void;
  error?: string | null;
}) {
  const [visited, setVisited] = useState(false);
  const [phone, setPhone] = useState<string | null>(null);
  // Known only in the browser; the first picture must agree with the server's.
  const [secure, setSecure] = useState<boolean | null>(null);
  useEffect(() => setSecure(window.isSecureContext && "geolocation" in navigator), []);

  const read = readPosition(text);
  const wrong = !read.ok && visited && !read.empty ? read.message : null;
  const take = () => {
    setPhone("Asking this phone…");
    navigator.geolocation.getCurrentPosition(
      ({ coords }) => {
        const { latitude, longitude, accuracy } = coords;
        onChange(positionText({ latitude, longitude }));
        onPhone?.({ latitude, longitude, accuracy });
        setPhone(`Taken from this phone, which says it is within ${Math.ceil(accuracy)} m.`);
      },
      (failure) =>
        setPhone(
          failure.code === failure.PERMISSION_DENIED
            ? "This phone was told not to give its position. Allow it in the browser’s settings, or type it."
            : "This phone found no position. Wait under open sky and try again, or type it.",
        ),
      { enableHighAccuracy: true, timeout: 20_000, maximumAge: 0 },
    );
  };
  return (
    <div className={styles.position}>
      <TextField
        id={id}
        label={label}
        help={help ?? "Degrees, latitude first, as copied from a receiver."}
        error={error ?? wrong}
        value={text}
        autoCapitalize="off"
        spellCheck={false}
        onChange={(event) => onChange(event.target.value)}
        onBlur={() => setVisited(true)}
      />
      {secure === true && <Button onClick={take}>Use this phone&rsquo;s position</Button>}
      {secure === false && (
        <p className="field-help">
          This page did not come over https, so the phone does not give its position here. Type it in.
        </p>
      )}
      <p className="field-help" role="status">
        {phone}
      </p>
    </div>
  );
}
