"use client";
/** The film of the newest numbers; of earlier ones while there is none yet. */
import { useEffect, useState } from "react";
import { type FilmPaths, type HazardRequest, Reel } from "@/lib/throw";
import { ask } from "./ask";

export interface Filmed {
  reel: Reel | null;
  paths: FilmPaths | null;
  /** Of earlier numbers. */
  stale: boolean;
  /** Why the newest numbers have no film. */
  failure: string | null;
}

export function useFilm(request: HazardRequest | null, held: boolean): Filmed {
  const [filmed, setFilmed] = useState<Filmed>({ reel: null, paths: null, stale: true, failure: null });
  const key = request ? JSON.stringify(request) : "";
  useEffect(() => {
    setFilmed((before) => (before.stale ? before : { ...before, stale: true }));
    if (!key) return;
    return ask({ do: "film", request: JSON.parse(key), held }, (answer) => {
      if ("film" in answer)
        setFilmed({ reel: new Reel(answer.film), paths: answer.paths, stale: false, failure: null });
      else if ("failure" in answer)
        setFilmed((before) => ({ ...before, stale: true, failure: answer.failure }));
    });
  }, [key, held]);
  return filmed;
}
