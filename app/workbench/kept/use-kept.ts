"use client";
/** A form of the workbench that this browser keeps: through reloads, shared with other tabs, never lost unseen. */
import { type Dispatch, type SetStateAction, useEffect, useRef, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";

/**
 * Answers the form, its setter, and whether what was kept has been read.
 * @param read null of a text that is none of ours: it is put aside, and the form stays as it starts
 */
export function useKept<T>(
  key: string,
  start: () => T,
  read: (text: string | null) => T | null,
  write: (form: T) => string,
): readonly [T, Dispatch<SetStateAction<T>>, boolean] {
  const [form, setForm] = useState(start);
  const [loaded, setLoaded] = useState(false);
  /** As it was read: what nobody has changed is not written, nor told as not kept. */
  const untouched = useRef<string | null>(null);
  const ways = useRef({ start, read, write });
  ways.current = { start, read, write };

  useEffect(() => {
    const store = keptText(key);
    const take = (text: string | null): boolean => {
      const found = ways.current.read(text);
      const now = found ?? ways.current.start();
      untouched.current = ways.current.write(now);
      setForm(now);
      return found !== null;
    };
    if (!take(store.read())) store.setAside();
    setLoaded(true);
    return store.hear((text) => {
      if (ways.current.read(text) === null) store.hold();
      else take(text);
    });
  }, [key]);

  useEffect(() => {
    if (!loaded) return;
    const text = ways.current.write(form);
    if (text === untouched.current) return;
    untouched.current = null;
    keptText(key).write(text);
  }, [key, form, loaded]);

  return [form, setForm, loaded];
}
