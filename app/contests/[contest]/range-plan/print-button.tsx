"use client";
import { Button } from "@/app/_ui/button";

export function PrintButton({ children }: { children: React.ReactNode }) {
  return (
    <Button look="main" onClick={() => window.print()}>
      {children}
    </Button>
  );
}
