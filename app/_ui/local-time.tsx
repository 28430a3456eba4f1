"use client";
/** A time as clocks here show it; in UTC until the browser has said where here is. */
import { useEffect, useState } from "react";
import { instantText } from "./words";

export function LocalTime({ iso, day }: { iso: string; day?: boolean }) {
  const [text, setText] = useState(() => instantText(iso));
  useEffect(() => {
    const clock = { hour: "2-digit", minute: "2-digit" } as const;
    const options = day ? ({ ...clock, day: "numeric", month: "short" } as const) : clock;
    setText(new Date(iso).toLocaleString("en-GB", options));
  }, [iso, day]);
  return <time dateTime={iso}>{text}</time>;
}
