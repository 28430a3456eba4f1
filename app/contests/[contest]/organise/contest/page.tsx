import { allowed, overview, titled } from "@/app/_ui/reading";
import { contestDays, coordinates } from "@/app/_ui/words";
import { ContestForm } from "./contest-form";

export const generateMetadata = titled("The contest itself");

export default async function ContestParticularsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const contest = await overview(slug);
  return (
    <>
      <h1>The contest itself</h1>
      <p>
        Its address, /contests/{slug}, and the middle of its site, {coordinates(contest)}, stay: the map and
        what was measured hang on them.
      </p>
      {who.role === "organiser" ? (
        <ContestForm contest={contest} />
      ) : (
        <p>
          {[contest.name, contest.place, contestDays(contest)].filter(Boolean).join(", ")}; {contest.rounds}{" "}
          {contest.rounds === 1 ? "round" : "rounds"}. The organiser changes it.
        </p>
      )}
    </>
  );
}
