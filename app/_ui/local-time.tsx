"use client";
/** A time as clocks here show it; in UTC until the browser has said where here is. */
import { useEffect, useState } from "react";
import { instantText } from "./words";

export function LocalTime({ iso, day }: { iso: string; day?: boolean }) {
  const [text, setText] = useState(() => instantText(iso));
  useEffect(() => {
    const clock = { hour: "2-digit", minute: "2-digit" } as const;
    const at = new Date(iso);
    const year = at.getFullYear() === new Date().getFullYear() ? {} : ({ year: "numeric" } as const);
    const options = day ? ({ ...clock, ...year, day: "numeric", month: "short" } as const) : clock;
    setText(at.toLocaleString("en-GB", options));
  }, [iso, day]);
  return <time dateTime={iso}>{text}</time>;
}
