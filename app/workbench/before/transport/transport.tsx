"use client";
/** On the road: height against what hangs over it, weight on trailer and hitch. */
import { Button } from "@/app/_ui/button";
import { STANDARD_GRAVITY } from "@/lib/earth";
import styles from "../before.module.css";
import type { SectionProps } from "../section-props";
import { Height } from "./height";
import { Weight } from "./weight";

export function Transport({ request, found, title }: SectionProps) {
  return (
    <>
      <p className={styles.of}>{title}</p>
      <Height machine={request.machine} />
      <Weight request={request} gravity={found?.gravity ?? STANDARD_GRAVITY} />
      <p className="button-row no-print">
        <Button onClick={() => print()}>Print this section</Button>
      </p>
    </>
  );
}
