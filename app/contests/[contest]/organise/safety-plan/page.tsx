import Link from "next/link";
import { readerUnits } from "@/app/_ui/reader-units";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { readSafetyPlan } from "@/lib/contest";
import { formatQuantity } from "@/lib/units";
import { PlanForm } from "./plan-form";

export const generateMetadata = titled("Safety plan");

export default async function SafetyPlanPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  const { air, units } = await overview(slug);
  const { plan, updatedAt } = await reading((db, who) => readSafetyPlan(db, who, slug));
  const system = await readerUnits(units);
  const gust = Math.max(air.wind?.speed ?? 0, air.wind?.gust ?? 0);
  return (
    <>
      <h1>Safety plan</h1>
      <p>
        What is done when something goes wrong, and who knows it. It is printed in the{" "}
        <Link href={`/contests/${slug}/safety-file`}>safety file</Link>. Write roles and posts, no
        person&rsquo;s name. Every number that stands here before you change it is common practice, from no
        source: the safety officer and the emergency services decide.
      </p>
      <h2>Wind</h2>
      <p>
        {gust > 0
          ? `Machines may fire in gusts up to ${formatQuantity(gust, "speed", system)}.`
          : "No wind limit is set: sheets hold for still air only."}{" "}
        The safety officer sets it under{" "}
        <Link href={`/contests/${slug}/organise/conditions`}>Policy and air</Link>.
      </p>
      <PlanForm slug={slug} plan={plan} updatedAt={updatedAt} />
    </>
  );
}
