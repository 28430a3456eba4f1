"use client";
import { useEffect, useState } from "react";

/**
 * ready: these pages open without a network. insecure: the page came over plain http, where no phone keeps pages.
 * unable: the browser cannot, or there was no room.
 */
export type Offline = "asking" | "ready" | "insecure" | "unable";

/** After this a phone is told what it has from before, although the network may still answer, ms. */
const PATIENCE = 8000;

/** Has the service worker keep these pages, and says whether it did. */
export function useOffline(pages: readonly string[]): Offline {
  const [state, setState] = useState<Offline>("asking");
  const wanted = pages.join(" ");
  useEffect(() => {
    let here = true;
    const say = (now: Offline) => {
      if (here) setState(now);
    };
    if (!window.isSecureContext) say("insecure");
    else if (!("serviceWorker" in navigator)) say("unable");
    // The files of `next dev` change under their address.
    else if (process.env.NODE_ENV === "production") {
      keep(wanted.split(" ")).then(
        (kept) => say(kept ? "ready" : "unable"),
        () => say("unable"),
      );
      // So that the browser does not clear it away when the phone runs full.
      void navigator.storage?.persist?.();
    }
    return () => {
      here = false;
    };
  }, [wanted]);
  return state;
}

async function keep(pages: readonly string[]): Promise<boolean> {
  const known = await navigator.serviceWorker.getRegistration("/");
  if (navigator.onLine || !known) {
    await navigator.serviceWorker.register("/sw.js", { updateViaCache: "none" }).catch((error) => {
      // Without a network the worker that is there goes on.
      if (!known) throw error;
    });
  }
  const { active } = await navigator.serviceWorker.ready;
  const anew = allKept(pages, navigator.onLine ? active : null);
  const late = new Promise((resolve) => setTimeout(resolve, PATIENCE))
    .then(() => isKept(pages))
    .then((kept) => kept || anew);
  return (await Promise.race([anew, late])) || isKept(pages);
}

function allKept(pages: readonly string[], worker: ServiceWorker | null): Promise<boolean> {
  if (!worker) return Promise.resolve(false);
  return new Promise((resolve) => {
    const { port1, port2 } = new MessageChannel();
    port1.onmessage = ({ data }: MessageEvent<{ kept: boolean }>) => resolve(data.kept);
    worker.postMessage({ keep: pages }, [port2]);
  });
}

/** Without a network nothing is fetched anew, but may be there from before. */
async function isKept(pages: readonly string[]): Promise<boolean> {
  const found = await Promise.all(pages.map((page) => caches.match(page, { ignoreVary: true })));
  return found.every((one) => one !== undefined);
}
