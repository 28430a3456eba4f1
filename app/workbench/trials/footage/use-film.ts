"use client";
/** The film on the page with what was tapped on it and told of it, kept through reloads. */
import { useEffect, useRef, useState } from "react";
import { keep, kept } from "@/app/_ui/browser-memory";
import { useUnits } from "@/app/_ui/units";
import type { HazardRequest } from "@/lib/throw";
import { type FilmForm, startingFilm } from "./film-form";
import { type FilmFile, fileOf, filmFromText, filmToText, type KeptFilm, sameFile } from "./kept-film";
import { nothingTapped, type Tapped } from "./marks";

const KEY = "fairthrow-film";

export function useFilm(request: HazardRequest) {
  const system = useUnits();
  const [form, setForm] = useState<FilmForm>(() => startingFilm(request, system));
  const [marks, setMarks] = useState<Tapped>(nothingTapped);
  const [file, setFile] = useState<FilmFile | null>(null);
  const [earlier, setEarlier] = useState<KeptFilm | null>(null);
  const [unkept, setUnkept] = useState(false);
  const untouched = useRef(true);

  // biome-ignore lint/correctness/useExhaustiveDependencies: read once; a switch of units reads nothing anew.
  useEffect(() => setEarlier(filmFromText(kept(KEY), system)), []);

  useEffect(() => {
    // Another film takes the last one's place with its first tap, not before.
    if (file && marks !== nothingTapped) setUnkept(!keep(KEY, filmToText({ file, tapped: marks, form })));
  }, [file, marks, form]);

  /** @returns whether it is the film that was tapped last, whose points are there again */
  const open = (chosen: File): boolean => {
    const next = fileOf(chosen);
    if (file && sameFile(file, next)) return true;
    const before = filmFromText(kept(KEY), system);
    setEarlier(null);
    setFile(next);
    if (before && sameFile(before.file, next)) {
      setMarks(before.tapped);
      setForm(before.form);
      untouched.current = false;
      return true;
    }
    setMarks(nothingTapped);
    untouched.current = true;
    return false;
  };

  return {
    form,
    setForm: (next: FilmForm) => {
      if (next.plays !== form.plays) untouched.current = false;
      setForm(next);
    },
    /** A rate that was measured: what somebody has typed stays. */
    setRate: (rate: number, asked: boolean) => {
      if (asked || untouched.current)
        setForm((now) => ({ ...now, plays: { text: String(rate), value: rate } }));
    },
    marks,
    setMarks,
    open,
    /** Tapped before the page was loaded: its film has to be chosen again. */
    earlier: file ? null : earlier,
    unkept,
  };
}
