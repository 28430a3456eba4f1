/**
 * The frame of every page: brand, ways on, unit switch, main, foot. Sections that know a contest pass its units
 * and their own ways on; what a page says goes inside.
 */
import Link from "next/link";
import type { ReactNode } from "react";
import { Mark } from "./mark";
import { NavLink } from "./nav-link";
import { readerUnits } from "./reader-units";
import { me } from "./reading";
import { UnitSwitch, UnitsProvider } from "./units";

export interface ShellLink {
  href: string;
  label: string;
}

const mainLinks: readonly ShellLink[] = [
  { href: "/contests", label: "Contests" },
  { href: "/calculator", label: "Calculator" },
  { href: "/workbench", label: "Workbench" },
];
const signIn: ShellLink = { href: "/sign-in", label: "Sign in" };

export async function Shell({
  defaultUnits,
  links,
  account,
  bar,
  children,
}: {
  /** The contest's units, for a reader who has chosen none. */
  defaultUnits?: string;
  links?: readonly ShellLink[];
  /** Who is signed in, with the way out. */
  account?: ReactNode;
  /** Between head and page, on every page of a section. */
  bar?: ReactNode;
  children: ReactNode;
}) {
  const known = account !== undefined && (await me()).badge !== null;
  const ways = links ?? (known ? mainLinks : [...mainLinks, signIn]);
  return (
    <UnitsProvider initial={await readerUnits(defaultUnits)}>
      <a className="skip" href="#main">
        Skip to the page
      </a>
      <header className="masthead">
        <div className="masthead-inner">
          <Link className="brand" href="/">
            <Mark />
            Fairthrow
          </Link>
          <nav aria-label="Main">
            {ways.map((link) => (
              <NavLink key={link.href} {...link} />
            ))}
          </nav>
          {account}
          <UnitSwitch />
        </div>
      </header>
      {bar}
      <main className="page" id="main" tabIndex={-1}>
        {children}
      </main>
      <footer className="colophon">
        <p>
          Fairthrow computes from what people declare and measure. It clears nothing by itself: the safety
          officer, local codes and licensed practice decide.
        </p>
      </footer>
    </UnitsProvider>
  );
}
