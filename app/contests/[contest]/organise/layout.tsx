import type { ReactNode } from "react";
import { allowed } from "@/app/_ui/reading";
import { UpLink } from "./up-link";

/** The pages behind the scenes: organisers, and safety officers for their parts. */
export default async function OrganiseLayout({
  params,
  children,
}: {
  params: Promise<{ contest: string }>;
  children: ReactNode;
}) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  return (
    <>
      <UpLink href={`/contests/${slug}/organise`} />
      {children}
    </>
  );
}
