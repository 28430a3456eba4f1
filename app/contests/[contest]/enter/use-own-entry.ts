"use client";
/**
 * The team's draft: on this phone with every letter, on the server whenever the typing rests. Nothing goes up unless
 * it goes on from what the server has.
 */
import { useCallback, useEffect, useRef, useState } from "react";
import { changeForm, type FormAction } from "@/app/_ui/machine-form/form/state";
import { useUnits } from "@/app/_ui/units";
import type { UnitSystem } from "@/app/_ui/units-cookie";
import { newKey } from "@/app/_ui/write/key";
import { send } from "@/app/_ui/write/send";
import type { OwnEntry, Problem } from "@/lib/api/contracts";
import { askAs } from "./ask-as";
import {
  bodyOf,
  type Draft,
  draftOf,
  forgetDraft,
  keepDraft,
  keptDraft,
  sameDraft,
  type Values,
} from "./kept-entry";

/** The typing rests, ms. */
const REST = 1500;
const AGAIN = 12_000;

/** "here": on this phone alone, sent by itself. "refused": the server will not take it as it is. */
export type Keeping = "kept" | "keeping" | "here" | "refused" | "overtaken";

export interface OnEntry {
  own: OwnEntry;
  draft: Draft;
  /** Whether it may still be changed. */
  open: boolean;
  keeping: Keeping;
  problem: Problem | null;
  setValues: (change: Partial<Values>) => void;
  change: (action: FormAction) => void;
  /** All of it on the server now: true once it is. */
  flush: () => Promise<boolean>;
  /** The server's entry anew; what was typed stays unless the server's words are asked for. */
  reload: (theirs?: boolean) => Promise<void>;
  /** What is typed here takes the place of what somebody else has kept meanwhile. */
  insist: () => Promise<void>;
}

type Loaded =
  | { state: "asking" }
  | { state: "failed"; detail: string; gone: boolean }
  | { state: "there"; entry: OnEntry };

export function useOwnEntry(slug: string, secret: string, startingUnits: UnitSystem): Loaded {
  const system = useUnits();
  const url = `/api/v1/contests/${slug}/entries/own`;
  const [own, setOwn] = useState<OwnEntry | null>(null);
  const [draft, setDraft] = useState<Draft | null>(null);
  const [failed, setFailed] = useState<{ detail: string; gone: boolean } | null>(null);
  const [keeping, setKeeping] = useState<Keeping>("kept");
  const [problem, setProblem] = useState<Problem | null>(null);
  /** The newest, for what runs later. */
  const now = useRef({ own, draft });
  now.current = { own, draft };
  /** What the server has. */
  const there = useRef<Draft | null>(null);
  const flying = useRef<Promise<boolean> | null>(null);
  const open = useRef<{ key: string; what: string } | null>(null);

  const take = useCallback((next: OwnEntry, words: Draft) => {
    now.current = { own: next, draft: words };
    setOwn(next);
    setDraft(words);
  }, []);

  const reload = useCallback(
    async (theirs = false) => {
      const answer = await askAs<OwnEntry>(url, secret);
      const local = theirs ? null : keptDraft(secret);
      if (!answer.ok) {
        if (local && !answer.reached) {
          there.current = draftOf(local.own.entry, local.draft.form.system);
          take(local.own, local.draft);
          setKeeping("here");
        } else setFailed({ detail: answer.detail, gone: answer.status === 404 });
        return;
      }
      const { entry } = answer.data;
      const server = draftOf(entry, startingUnits);
      there.current = server;
      setFailed(null);
      if (!isOpen(entry) || !local || sameDraft(local.draft, server)) {
        take(answer.data, server);
        setKeeping("kept");
      } else {
        const overtaken = local.draft.version !== entry.version;
        take(answer.data, local.draft);
        setKeeping(overtaken ? "overtaken" : "here");
      }
    },
    [url, secret, startingUnits, take],
  );
  useEffect(() => void reload(), [reload]);

  const insist = useCallback(async () => {
    const answer = await askAs<OwnEntry>(url, secret);
    const { draft } = now.current;
    if (!answer.ok || !draft) return;
    there.current = draftOf(answer.data.entry, draft.form.system);
    take(answer.data, { ...draft, version: answer.data.entry.version });
    setProblem(null);
    setKeeping("here");
  }, [url, secret, take]);

  const flush = useCallback(async (): Promise<boolean> => {
    while (flying.current) await flying.current;
    const { own, draft } = now.current;
    if (!own || !draft || !isOpen(own.entry)) return false;
    if (there.current && sameDraft(draft, there.current) && draft.version === own.entry.version) {
      setKeeping("kept");
      return true;
    }
    const body = bodyOf(draft);
    const what = JSON.stringify(body);
    if (open.current?.what !== what) open.current = { key: newKey(), what };
    const { key } = open.current;
    setKeeping("keeping");
    const work = send<{ version: number; state: OwnEntry["entry"]["state"]; updatedAt: string }>(
      "PUT",
      url,
      body,
      key,
      undefined,
      secret,
    ).then((sent) => {
      if (!sent.ok) {
        setProblem(sent.reached ? sent.problem : null);
        setKeeping(
          !sent.reached || !sent.settled
            ? "here"
            : sent.problem.code === "changed-meanwhile"
              ? "overtaken"
              : "refused",
        );
        return false;
      }
      open.current = null;
      setProblem(null);
      const { version, state, updatedAt } = sent.data;
      there.current = { ...draft, version };
      const entry = { ...(now.current.own ?? own).entry, version, state, updatedAt };
      const newest = now.current.draft ?? draft;
      take({ ...(now.current.own ?? own), entry }, { ...newest, version });
      setKeeping(sameDraft(newest, draft) ? "kept" : "here");
      return true;
    });
    flying.current = work;
    try {
      return await work;
    } finally {
      flying.current = null;
    }
  }, [url, secret, take]);

  // On this phone at once, on the server once the typing rests.
  useEffect(() => {
    if (!own || !draft) return;
    if (!isOpen(own.entry)) {
      forgetDraft(secret);
      return;
    }
    keepDraft(secret, own, draft);
    if (there.current && sameDraft(draft, there.current)) return;
    setKeeping((before) => (before === "overtaken" || before === "keeping" ? before : "here"));
    if (keeping === "overtaken") return;
    const timer = setTimeout(() => void flush(), REST);
    return () => clearTimeout(timer);
  }, [own, draft, secret, flush, keeping]);
  // What could not be sent goes out by itself.
  useEffect(() => {
    if (keeping !== "here") return;
    const again = () => void flush();
    const timer = setInterval(again, AGAIN);
    addEventListener("online", again);
    return () => {
      clearInterval(timer);
      removeEventListener("online", again);
    };
  }, [keeping, flush]);

  const update = useCallback((make: (before: Draft) => Draft) => {
    setDraft((before) => before && make(before));
  }, []);
  const setValues = useCallback(
    (values: Partial<Values>) => update((before) => ({ ...before, values: { ...before.values, ...values } })),
    [update],
  );
  const change = useCallback(
    (action: FormAction) => update((before) => ({ ...before, form: changeForm(before.form, action) })),
    [update],
  );
  const written = draft?.form.system;
  useEffect(() => {
    if (written && written !== system) change({ type: "units", system });
  }, [written, system, change]);

  if (own && draft)
    return {
      state: "there",
      entry: {
        own,
        draft,
        open: isOpen(own.entry),
        keeping,
        problem,
        setValues,
        change,
        flush,
        reload,
        insist,
      },
    };
  return failed ? { state: "failed", ...failed } : { state: "asking" };
}

const isOpen = ({ state, erasedAt }: OwnEntry["entry"]) =>
  erasedAt === null && state !== "accepted" && state !== "refused";
