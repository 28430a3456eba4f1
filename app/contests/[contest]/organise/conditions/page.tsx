import Link from "next/link";
import { allowed, overview, titled } from "@/app/_ui/reading";
import { AirForm } from "./air-form";
import { Barriers } from "./barriers";
import { ConditionsTable } from "./conditions-table";
import { PolicyForm } from "./policy-form";
import { Protections } from "./protections";

export const generateMetadata = titled("Policy, air and protections");

export default async function ConditionsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { policy, air, barriers, features } = await overview(slug);
  if (who.role !== "safety-officer") {
    return (
      <>
        <h1>Policy, air and protections</h1>
        <p>Only the safety officer sets these. They stand on every hazard sheet and shape every zone.</p>
        <ConditionsTable policy={policy} air={air} />
        <h2>Protections</h2>
        <Protections slug={slug} features={features} mayAllow={false} />
        <h2>Barriers</h2>
        <Barriers slug={slug} barriers={barriers} maySign={false} />
      </>
    );
  }
  return (
    <>
      <h1>Policy, air and protections</h1>
      <p>
        They are yours alone, as safety officer. Every change makes all hazard sheets stale; new ones are
        computed at once, and your reason stands in the scorebook. The defaults are common practice, from no
        standard: local codes and your own judgement come first.
      </p>
      <h2>Policy</h2>
      <PolicyForm slug={slug} policy={policy} />
      <h2>Air and wind in which machines may fire</h2>
      <p>
        Sheets hold for this air. Stop the range when the wind passes it:{" "}
        <Link href={`/contests/${slug}/wind`}>read the wind of the day</Link>.
      </p>
      <AirForm slug={slug} air={air} />
      <h2>Protections</h2>
      <p>
        The organiser lays out what is to be protected. Where that is to be less than its kind has by itself,
        it takes your word.
      </p>
      <Protections slug={slug} features={features} mayAllow />
      <h2>Barriers</h2>
      <Barriers slug={slug} barriers={barriers} maySign />
    </>
  );
}
