"use client";
/** One section at a time, of the chosen revision. */
import Link from "next/link";
import { useEffect, useRef, useSyncExternalStore } from "react";
import { kindTitle } from "@/app/_ui/hazard-sheet/words";
import { ErrorList } from "@/app/_ui/machine-form/error-list";
import { Notice } from "@/app/_ui/notice";
import { useBench } from "../bench/use-bench";
import { useBreakage } from "../strength/asks";
import styles from "./before.module.css";
import { SECTIONS } from "./sections";

function onHash(hear: () => void) {
  addEventListener("hashchange", hear);
  return () => removeEventListener("hashchange", hear);
}

/** Which section the address names. */
const useHash = () =>
  useSyncExternalStore(
    onHash,
    () => location.hash.slice(1),
    () => "",
  );

export function BeforeDesk() {
  const { bench, revision, reading, loaded } = useBench();
  const request = loaded && reading.ok ? reading.request : null;
  const { answer, failure, stale } = useBreakage(request);
  const hash = useHash();
  const heading = useRef<HTMLHeadingElement>(null);
  const offered = request ? SECTIONS.filter(({ applies }) => applies(request.machine)) : [];
  const shown = offered.find(({ id }) => id === hash) ?? offered[0];
  const before = useRef<string | undefined>(undefined);
  const id = shown?.id;
  // Whoever chooses a section goes on from its heading.
  useEffect(() => {
    if (before.current !== undefined && id !== before.current) heading.current?.focus();
    if (id !== undefined) before.current = id;
  }, [id]);
  if (!loaded) return <p>Reading the bench…</p>;
  if (!reading.ok || !request || !shown)
    return (
      <Notice title="Numbers are missing or wrong">
        <ErrorList errors={reading.ok ? {} : reading.errors} form={revision.form} />
        <p>
          Put them right on the <Link href="/workbench">machine page</Link> first.
        </p>
      </Notice>
    );
  const title = [bench.name || kindTitle(request.machine.kind), revision.name].filter(Boolean).join(", ");
  return (
    <>
      <nav aria-label="Before the day" className={`${styles.parts} no-print`}>
        {offered.map((section) => (
          <a key={section.id} href={`#${section.id}`} aria-current={section.id === id ? "true" : undefined}>
            {section.label}
          </a>
        ))}
      </nav>
      {failure && (
        <Notice kind="problem" title="Its loads are not computed">
          <p>{failure} What stands on them is left out below.</p>
        </Notice>
      )}
      <section className={styles.section} aria-labelledby="before-section" aria-busy={stale && !failure}>
        <h2 id="before-section" ref={heading} tabIndex={-1}>
          {shown.label}
        </h2>
        <shown.Content request={request} found={stale ? null : answer} title={title} />
      </section>
    </>
  );
}
