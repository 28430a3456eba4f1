"use client";
/** STOP that came with machines, for every page of the workbench: kept in this browser until it is answered in writing. */
import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import { keptText } from "@/app/_ui/kept-text";
import { RECEIVED_KEY } from "../kept/names";
import type { Carried } from "./carried";
import {
  mergedReceived,
  nameOf,
  type Received,
  receivedFromText,
  receivedToText,
  withAnswer,
  withReceived,
} from "./received";

interface ReceivedStops {
  stops: readonly Received[];
  /** Answers those that are new here. */
  receive: (came: readonly Carried[], from: string) => readonly string[];
  answer: (name: string, reason: string, at: string) => void;
  /** The machine that brought them was put back where it came from. */
  giveBack: (names: readonly string[]) => void;
}

const Context = createContext<ReceivedStops | null>(null);
const store = () => keptText(RECEIVED_KEY, mergedReceived);

/** What is kept; a text that is none of ours is put aside, which is told above every page. */
function readKept(): Received[] {
  const found = receivedFromText(store().read());
  if (found) return found;
  store().setAside();
  return [];
}

export function ReceivedProvider({ children }: { children: ReactNode }) {
  const [stops, setStops] = useState<readonly Received[]>([]);
  useEffect(() => {
    setStops(readKept());
    // What another version of the program wrote takes nothing away here.
    return store().hear((text) => setStops((shown) => receivedFromText(text) ?? shown));
  }, []);
  const value = useMemo((): ReceivedStops => {
    // From what is kept: a link is opened before this page has read it.
    const write = (change: (before: readonly Received[]) => readonly Received[]) => {
      const before = readKept();
      const next = change(before);
      if (next !== before) store().write(receivedToText(next));
      setStops(next);
      return { before, next };
    };
    return {
      stops,
      receive: (came, from) => {
        if (came.length === 0) return [];
        const { before, next } = write((all) => withReceived(all, came, from));
        return next.map(nameOf).filter((name) => !before.some((each) => nameOf(each) === name));
      },
      answer: (name, reason, at) => void write((all) => withAnswer(all, name, { at, reason })),
      giveBack: (names) =>
        void write((all) => all.filter((each) => each.answer || !names.includes(nameOf(each)))),
    };
  }, [stops]);
  return <Context value={value}>{children}</Context>;
}

export function useReceived(): ReceivedStops {
  const found = useContext(Context);
  if (!found) throw new Error("This stands only on the workbench's pages.");
  return found;
}
