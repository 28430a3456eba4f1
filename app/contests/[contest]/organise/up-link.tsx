"use client";
import Link from "next/link";
import { usePathname } from "next/navigation";
import styles from "./organise.module.css";

/** From a part back to the list of parts. */
export function UpLink({ href }: { href: string }) {
  if (usePathname() === href) return null;
  return (
    <p className={styles.up}>
      <Link href={href}>← Organise</Link>
    </p>
  );
}
