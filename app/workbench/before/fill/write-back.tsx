"use client";
/** A filling's mass as a new revision of the machine, with one tap. */
import Link from "next/link";
import { useState } from "react";
import { Button } from "@/app/_ui/button";
import { massText } from "@/app/_ui/inspection/texts";
import { Notice } from "@/app/_ui/notice";
import { quantityOf } from "@/app/_ui/quantity-field";
import { useUnits } from "@/app/_ui/units";
import { MOST_REVISIONS } from "../../bench/bench";
import { newRevisionId, useBench } from "../../bench/use-bench";
import type { Offered } from "./facts";

/** A difference that no scale shows. */
const SAME = 0.05;

export function WriteBack({ declared, masses }: { declared: number; masses: readonly Offered[] }) {
  const system = useUnits();
  const { bench, change } = useBench();
  const [done, setDone] = useState<string | null>(null);
  const full = bench.revisions.length >= MOST_REVISIONS;
  const others = masses.filter(({ mass }) => Math.abs(mass - declared) > SAME);
  const write = ({ mass, words }: Offered) => {
    if (full) return;
    const text = massText(mass, system);
    const id = newRevisionId();
    const kilograms = Number(mass.toFixed(1));
    change({ do: "copy", id, name: `Counterweight ${text}` });
    change({
      do: "describe",
      id,
      note: `Counterweight ${words}: ${text} instead of ${massText(declared, system)}.`,
    });
    change({
      do: "form",
      change: {
        type: "quantity",
        path: "machine.counterweightMass",
        quantity: quantityOf(kilograms, "mass", system),
      },
    });
    setDone(text);
  };
  return (
    <>
      <p className="button-row no-print">
        {others.map((each) => (
          <Button key={each.words} aria-disabled={full} onClick={() => write(each)}>
            New revision with {massText(each.mass, system)}, {each.words}
          </Button>
        ))}
      </p>
      {full && others.length > 0 && (
        <p>The bench holds {MOST_REVISIONS} revisions: take one off on the page Machine first.</p>
      )}
      <div role="status" className="no-print">
        {done && (
          <Notice kind="done" title={`On the bench: a revision with a counterweight of ${done}`}>
            <p>
              It is the chosen one from now on. The checklist goes with it, less the ticks that stood on the
              old mass; the others are marked until somebody looks again. See what it throws on the{" "}
              <Link href="/workbench">machine page</Link>.
            </p>
          </Notice>
        )}
      </div>
    </>
  );
}
