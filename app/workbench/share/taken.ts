"use client";
/** What was taken from a file last, and the way back: until the page is loaded anew, whatever page is looked at meanwhile. */
import { useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { useUnits } from "@/app/_ui/units";
import { useReceived } from "../alarm/use-received";
import { type Bench, benchToText } from "../bench/bench";
import { useBench } from "../bench/use-bench";

export interface Taken {
  title: string;
  words: string;
  /** What was there before; null once it is back. `after` is what the file made of it. */
  back:
    | { of: "bench"; before: Bench; after: string; stops: readonly string[] }
    | { of: "form"; key: string; before: string | null; after: string }
    | null;
}

let last: Taken | null = null;

export function useTaken() {
  const system = useUnits();
  const { bench, change } = useBench();
  const { giveBack } = useReceived();
  const [taken, show] = useState(last);
  const setTaken = (what: Taken | null) => {
    last = what;
    show(what);
  };
  const undo = () => {
    const back = taken?.back;
    if (!back) return;
    const now = back.of === "bench" ? benchToText(bench) : keptText(back.key).read();
    if (now !== back.after && !confirm("It was changed since. Undo takes those changes away too. Undo it?"))
      return;
    if (back.of === "bench") {
      change({ do: "replace", bench: back.before });
      change({ do: "units", system });
      giveBack(back.stops);
    } else keptText(back.key).write(back.before);
    setTaken({ title: "Undone", words: "What was there before the file is back.", back: null });
  };
  return { taken, setTaken, undo };
}
