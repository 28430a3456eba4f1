"use client";
/** Getting it up, and keeping it where it stands. */
import { Button } from "@/app/_ui/button";
import { STANDARD_GRAVITY } from "@/lib/earth";
import styles from "../before.module.css";
import type { SectionProps } from "../section-props";
import { Anchors } from "./anchors";
import { Tackle } from "./tackle";

export function Raising({ request, found, title }: SectionProps) {
  const gravity = found?.gravity ?? STANDARD_GRAVITY;
  return (
    <>
      <p className={styles.of}>{title}</p>
      <Tackle machine={request.machine} gravity={gravity} />
      <Anchors request={request} found={found} gravity={gravity} />
      <p className="button-row no-print">
        <Button onClick={() => print()}>Print this section</Button>
      </p>
    </>
  );
}
