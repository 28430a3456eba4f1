"use client";
/** The one draft of this page and what is done with it, kept through a reload. */
import { useCallback, useEffect, useState } from "react";
import type { DrawAction } from "../map/edit/model";
import { type Draft, type Fields, keepDraft, loadDraft, redrawn } from "./draft";

export function useDraft(site: string) {
  const [draft, setDraft] = useState<Draft | null>(null);
  const [restored, setRestored] = useState(false);
  const [ready, setReady] = useState(false);

  // After the first picture, which must agree with the server's.
  useEffect(() => {
    const kept = loadDraft(site);
    setDraft(kept);
    setRestored(kept !== null);
    setReady(true);
  }, [site]);
  useEffect(() => {
    if (ready) keepDraft(site, draft);
  }, [site, draft, ready]);

  const begin = useCallback((next: Draft | null) => {
    setRestored(false);
    setDraft(next);
  }, []);
  const dispatch = useCallback(
    (action: DrawAction) => setDraft((before) => (before ? redrawn(before, action) : before)),
    [],
  );
  const setFields = useCallback(
    (changed: Partial<Fields>) =>
      setDraft((before) => (before ? { ...before, fields: { ...before.fields, ...changed } } : before)),
    [],
  );
  return { draft, restored, begin, dispatch, setFields };
}
