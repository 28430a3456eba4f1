"use client";
import Link from "next/link";
import { usePathname } from "next/navigation";

/** A way on that says so when the reader is already there. */
export function NavLink({ href, label }: { href: string; label: string }) {
  const here = usePathname() === href;
  return (
    <Link href={href} prefetch={false} aria-current={here ? "page" : undefined}>
      {label}
    </Link>
  );
}
