"use client";
/** Asks before a page with unsaved work is left: by reload, by closing, by a link. */
import { useEffect } from "react";

const QUESTION =
  "What you have drawn is not saved. It stays on this device, and you can go on with it here later. Leave this page?";

export function useLeaveGuard(unsaved: boolean): void {
  useEffect(() => {
    if (!unsaved) return;
    const closing = (event: BeforeUnloadEvent) => event.preventDefault();
    const clicked = (event: MouseEvent) => {
      const link = event.target instanceof Element ? event.target.closest("a[href]") : null;
      if (!(link instanceof HTMLAnchorElement)) return;
      const elsewhere = link.target === "_blank" || event.ctrlKey || event.metaKey || event.shiftKey;
      const there = new URL(link.href);
      const here = there.pathname === location.pathname && there.origin === location.origin;
      if (elsewhere || here || link.hasAttribute("download") || confirm(QUESTION)) return;
      event.preventDefault();
      event.stopPropagation();
    };
    window.addEventListener("beforeunload", closing);
    // On the window and on the way down: before the router's own listener.
    window.addEventListener("click", clicked, true);
    return () => {
      window.removeEventListener("beforeunload", closing);
      window.removeEventListener("click", clicked, true);
    };
  }, [unsaved]);
}
