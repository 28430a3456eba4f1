"use client";
/** Where the focus goes when what had it is gone, as a button that takes its own row away: not to the page's beginning. */
import { useEffect } from "react";

const HEADING = "h1, h2, h3, h4";

/** The last heading before a place, or the page's first. */
function headingBefore(place: Element): HTMLElement | null {
  const all = [...document.querySelectorAll<HTMLElement>(HEADING)].filter(
    (heading) => heading.offsetParent !== null,
  );
  const before = all.filter(
    (heading) => heading.compareDocumentPosition(place) & Node.DOCUMENT_POSITION_FOLLOWING,
  );
  return before.at(-1) ?? all[0] ?? null;
}

/** The heading of what the lost one stood in. Of the nearest that is still there, its own counts before an earlier one. */
function homeOf(path: readonly Element[]): HTMLElement | null {
  const place = path.find((element) => element.isConnected);
  if (!place || place === document.body) return document.querySelector<HTMLElement>("h1");
  const named = place.closest("section, [role=group], form");
  const own = named?.querySelector<HTMLElement>(HEADING);
  return own ?? headingBefore(place);
}

export function FocusKeeper() {
  useEffect(() => {
    let last: { element: Element; path: Element[] } | null = null;
    const came = ({ target }: FocusEvent) => {
      if (!(target instanceof Element)) return;
      const path: Element[] = [];
      for (let up = target.parentElement; up; up = up.parentElement) path.push(up);
      last = { element: target, path };
    };
    const left = () => {
      const before = last;
      // Whoever tapped beside it has left it; what is taken away is only gone a moment later.
      setTimeout(() => {
        if (before === last && before?.element.isConnected && document.activeElement === document.body)
          last = null;
      });
    };
    const gone = () => {
      if (!last || last.element.isConnected) return;
      const { path } = last;
      last = null;
      // The page itself may send the focus somewhere.
      requestAnimationFrame(() => {
        if (document.activeElement !== document.body) return;
        const home = homeOf(path);
        if (!home) return;
        if (!home.hasAttribute("tabindex")) home.tabIndex = -1;
        home.focus({ preventScroll: true });
        home.scrollIntoView({ block: "nearest" });
      });
    };
    const watcher = new MutationObserver(gone);
    watcher.observe(document.body, { childList: true, subtree: true });
    document.addEventListener("focusin", came);
    document.addEventListener("focusout", left);
    return () => {
      watcher.disconnect();
      document.removeEventListener("focusin", came);
      document.removeEventListener("focusout", left);
    };
  }, []);
  return null;
}
