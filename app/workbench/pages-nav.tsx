"use client";
/** The ways between the pages of the workbench: one line on a phone, moved so that the present page is in sight. */
import { usePathname } from "next/navigation";
import { useEffect, useRef } from "react";
import { NavLink } from "../_ui/nav-link";
import { PAGES } from "./pages";
import styles from "./workbench.module.css";

export function PagesNav() {
  const path = usePathname();
  const line = useRef<HTMLElement>(null);
  // biome-ignore lint/correctness/useExhaustiveDependencies: another page is another link that is the present one.
  useEffect(() => {
    const nav = line.current;
    const here = nav?.querySelector<HTMLElement>('[aria-current="page"]');
    // Not scrollIntoView: it would move the page too, away from what its address names.
    if (nav && here) nav.scrollLeft = here.offsetLeft - (nav.clientWidth - here.offsetWidth) / 2;
  }, [path]);
  return (
    <nav ref={line} aria-label="Workbench" className={`${styles.pages} no-print`}>
      {PAGES.map((page) => (
        <NavLink key={page.href} {...page} />
      ))}
    </nav>
  );
}
