"use client";
import { DeclaredTable } from "@/app/_ui/hazard-sheet/declared";
import { useUnits } from "@/app/_ui/units";
import "@/app/_ui/hazard-sheet/hazard-sheet.css";
import type { Declaration } from "@/lib/throw";

export function Declared({
  declaration,
  ownNumbers,
}: {
  declaration: Declaration | null;
  ownNumbers: boolean;
}) {
  const system = useUnits();
  if (!declaration) return <p>Its numbers are not complete yet.</p>;
  return (
    <>
      <p>
        {ownNumbers
          ? "The team says that these were measured on its own machine."
          : "Some of these may still be the example’s: the team has not said that they are its own."}
      </p>
      <DeclaredTable declaration={declaration} system={system} />
    </>
  );
}
