"use client";
/** The phone's compass, from when it is asked for: an iPhone wants a touch and a yes first. */
import { useCallback, useEffect, useRef, useState } from "react";
import { type Heading, headingOf, steady, TOGETHER, type Turned } from "./heading";

export type Compass =
  /** What the browser can do is not known before the page runs. */
  | "unknown"
  | "insecure"
  | "ready"
  | "asking"
  | "denied"
  /** It is listened to and says nothing, or nothing that counts from north. */
  | "silent"
  | "reading";

type Asking = { requestPermission?: () => Promise<"granted" | "denied"> };

/** Without a word for this long there is no compass, ms. */
const SILENCE = 2500;
/** How often the page shows another number, ms. */
const SHOWN = 150;

export function useHeading() {
  const [compass, setCompass] = useState<Compass>("unknown");
  const [reading, setReading] = useState<ReturnType<typeof steady>>(null);
  const [wanted, setWanted] = useState(false);
  const heard = useRef<Heading[]>([]);

  useEffect(() => setCompass(window.isSecureContext ? "ready" : "insecure"), []);

  const start = useCallback(async () => {
    if (!window.isSecureContext) return;
    setCompass("asking");
    const asking = (window.DeviceOrientationEvent ?? {}) as unknown as Asking;
    try {
      const said = (await asking.requestPermission?.()) ?? "granted";
      if (said !== "granted") return setCompass("denied");
      setWanted(true);
    } catch {
      setCompass("denied");
    }
  }, []);

  useEffect(() => {
    if (!wanted) return;
    heard.current = [];
    const listen = (event: Event) => {
      const turned = event as Event & Turned;
      const found = headingOf(turned);
      if (!found) return;
      const at = Date.now();
      heard.current = [...heard.current.filter((one) => at - one.at <= TOGETHER), { ...found, at }];
    };
    const show = setInterval(() => {
      const last = heard.current.at(-1);
      const stale = !last || Date.now() - last.at > SILENCE;
      setReading(stale ? null : steady(heard.current));
      if (last && !stale) setCompass("reading");
    }, SHOWN);
    const silent = setInterval(() => {
      const last = heard.current.at(-1);
      if (!last || Date.now() - last.at > SILENCE) setCompass("silent");
    }, SILENCE);
    // Most phones count from north only in the first; iPhones only in the second.
    addEventListener("deviceorientationabsolute", listen);
    addEventListener("deviceorientation", listen);
    return () => {
      clearInterval(show);
      clearInterval(silent);
      removeEventListener("deviceorientationabsolute", listen);
      removeEventListener("deviceorientation", listen);
    };
  }, [wanted]);

  return { compass, reading, start };
}
