"use client";
/** The reader's units in client components, and the switch at the top of every page. */
import { useRouter } from "next/navigation";
import { createContext, type ReactNode, useContext, useEffect, useMemo, useState } from "react";
import { asUnitSystem, UNITS_COOKIE, type UnitSystem } from "./units-cookie";

interface Units {
  system: UnitSystem;
  choose: (system: UnitSystem) => void;
}

const UnitsContext = createContext<Units>({ system: "metric", choose: () => {} });

export function UnitsProvider({ initial, children }: { initial: UnitSystem; children: ReactNode }) {
  const router = useRouter();
  const [system, setSystem] = useState(initial);
  // A page that this device kept was drawn before the reader chose.
  useEffect(() => {
    const [, chosen] = new RegExp(`(?:^|; )${UNITS_COOKIE}=([^;]*)`).exec(document.cookie) ?? [];
    setSystem((shown) => asUnitSystem(chosen) ?? shown);
  }, []);
  const units = useMemo<Units>(
    () => ({
      system,
      choose(next) {
        setSystem(next);
        document.cookie = `${UNITS_COOKIE}=${next}; path=/; max-age=31536000; samesite=lax`;
        // What the server rendered is fetched anew; without a network only what the page itself draws changes.
        if (navigator.onLine) router.refresh();
      },
    }),
    [system, router],
  );
  return <UnitsContext value={units}>{children}</UnitsContext>;
}

/** The units to show and to read numbers in. */
export function useUnits(): UnitSystem {
  return useContext(UnitsContext).system;
}

export function UnitSwitch() {
  const { system, choose } = useContext(UnitsContext);
  const choice = (value: UnitSystem, label: string, aloud: string) => (
    <button type="button" aria-pressed={system === value} onClick={() => choose(value)}>
      {label}
      <span className="aloud"> {aloud}</span>
    </button>
  );
  return (
    // A group of buttons, not a form field: nothing is sent.
    <div className="unit-switch" role="group" aria-label="Units">
      {choice("metric", "m · kg", "metric")}
      {choice("us", "ft · lb", "US customary")}
    </div>
  );
}
