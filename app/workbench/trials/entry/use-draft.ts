"use client";
/** The form of a throw, kept in this browser while it is typed and not yet written down. */
import { type Dispatch, type SetStateAction, useEffect, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { DRAFT_KEY } from "../../kept/names";
import { meaning, withDraft } from "./draft";
import type { ThrowForm } from "./throw-form";

/** Of two tabs the one that was typed in last counts. */
const drafts = () => keptText(DRAFT_KEY, (own) => own);

interface Draft {
  form: ThrowForm;
  setForm: Dispatch<SetStateAction<ThrowForm>>;
  /** With a form that proposes by itself what stands in it: no draft. */
  propose: (form: ThrowForm) => void;
  /** Whether what stands here was typed before a reload. */
  foundAgain: boolean;
}

/**
 * @param of names the machine; null where nothing is to be kept
 * @param read what was kept of it, from the text of all drafts
 */
export function useDraft(
  of: string | null,
  start: () => ThrowForm,
  read: (text: string | null, of: string) => ThrowForm | null,
): Draft {
  const [found] = useState(() => (of === null ? null : read(drafts().read(), of)));
  const [form, setForm] = useState<ThrowForm>(() => found ?? start());
  const [proposed, setProposed] = useState(() => meaning(start()));
  const typed = meaning(form) !== proposed;
  useEffect(() => {
    if (of === null) return;
    const store = drafts();
    const kept = store.read();
    const next = withDraft(kept, of, typed ? form : null);
    if (next !== kept) store.write(next);
  }, [form, typed, of]);
  const propose = (next: ThrowForm) => {
    setForm(next);
    setProposed(meaning(next));
  };
  return { form, setForm, propose, foundAgain: found !== null && typed };
}
