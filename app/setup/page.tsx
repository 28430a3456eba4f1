import type { Metadata } from "next";
import Link from "next/link";
import { needsSetup } from "@/lib/contest";
import { reading } from "../_ui/reading";
import { Shell } from "../_ui/shell";
import { SetupForm } from "./setup-form";

export const metadata: Metadata = { title: "Set up" };

export default async function SetupPage() {
  const open = await reading((db) => needsSetup(db));
  return (
    <Shell>
      <h1>Make the first contest</h1>
      {open ? (
        <>
          <p>
            Fairthrow printed a setup code in the terminal when it started. It makes the first contest and its
            first organiser, once.
          </p>
          <SetupForm />
        </>
      ) : (
        <p>
          This Fairthrow is set up already. <Link href="/sign-in">Sign in</Link> with an organiser&rsquo;s
          badge to go on, or see the <Link href="/contests">contests</Link>.
        </p>
      )}
    </Shell>
  );
}
