"use client";
import { Button } from "./button";

export function PrintButton({ children }: { children: React.ReactNode }) {
  return (
    <Button look="main" onClick={() => window.print()}>
      {children}
    </Button>
  );
}
