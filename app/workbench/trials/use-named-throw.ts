"use client";
/** The throw that the address names, anew each time somebody asks for it. */
import { useEffect, useState } from "react";

const NAMED = /^#throw-(.+)$/;
const ASKED = "fairthrow-look-at-throw";

/** Asks once more for what the address names already. */
export const lookAgain = () => dispatchEvent(new Event(ASKED));

export function useNamedThrow(): { id: string } | null {
  const [named, setNamed] = useState<{ id: string } | null>(null);
  useEffect(() => {
    const look = () => {
      const found = NAMED.exec(location.hash)?.[1];
      setNamed(found ? { id: decodeURIComponent(found) } : null);
    };
    look();
    addEventListener("hashchange", look);
    addEventListener(ASKED, look);
    return () => {
      removeEventListener("hashchange", look);
      removeEventListener(ASKED, look);
    };
  }, []);
  return named;
}
