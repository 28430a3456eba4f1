import { judgesRound, roundAsked, titled } from "@/app/_ui/reading";
import { SpotDesk } from "./spot-desk";

export const generateMetadata = titled("Spot the splash");

export default async function SpotPage({
  params,
  searchParams,
}: {
  params: Promise<{ contest: string }>;
  searchParams: Promise<Record<string, string | string[] | undefined>>;
}) {
  const { contest: slug } = await params;
  const { given, label } = await judgesRound(slug, roundAsked(await searchParams));
  return (
    <>
      <h1>Spot the splash</h1>
      <SpotDesk key={given.initial.round} label={label} {...given} />
    </>
  );
}
