"use client";
/** One line that says whether pages open from this phone without a network, after having them kept. */
import { type Offline, useOffline } from "./use-offline";

export function KeptHere({
  pages,
  ready,
}: {
  /** Addresses, the page's own among them. */
  pages: readonly string[];
  /** What is said once all of them are kept. */
  ready: string;
}) {
  const offline = useOffline(pages);
  const words: Record<Offline, string | null> = {
    asking: null,
    ready,
    insecure: "Opened without https: when the network is gone this page does not open again.",
    unable: "This browser could not keep this page: without a network it does not open again.",
  };
  return words[offline] && <p className="no-print">{words[offline]}</p>;
}
