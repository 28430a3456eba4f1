"use client";
/** Reads the page anew when something changes that a permit hangs on, and every half minute: a reading of the wind expires without a word. */
import { useRouter } from "next/navigation";
import { useEffect } from "react";
import { useLive } from "@/app/_ui/live/use-live";

const OFTEN = 30_000;

export function KeepFresh({ slug, sequence }: { slug: string; sequence: number }) {
  const router = useRouter();
  const renew = () => {
    if (navigator.onLine) router.refresh();
  };
  useLive(`/api/v1/contests/${slug}/live`, sequence, ({ kind }, missed) => {
    if (missed || ["permit", "machine", "conditions", "sheet", "layout", "entry"].includes(kind)) renew();
  });
  useEffect(() => {
    const timer = setInterval(() => {
      if (navigator.onLine && document.visibilityState === "visible") router.refresh();
    }, OFTEN);
    return () => clearInterval(timer);
  }, [router]);
  return null;
}
