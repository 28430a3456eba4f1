import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { may, readMarkRule } from "@/lib/contest";
import { MarkRuleForm } from "./mark-rule-form";
import { LANDING_WORDS, UNIT_WORDS } from "./words";

export const generateMetadata = titled("Marks and protests");

export default async function MarkingPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const [{ id, controlPoints }, marking] = [
    await overview(slug),
    await reading((db) => readMarkRule(db, slug)),
  ];
  const { rule, centre, protestMinutes, entries } = marking;
  return (
    <>
      <h1>Marks and protests</h1>
      <p>
        A mark counts from{" "}
        {rule.from === "arc" ? `the measuring arc about ${centre?.name}` : "the firing point"} to{" "}
        {LANDING_WORDS[rule.landing]}, rounded down to {UNIT_WORDS[rule.unit]}
        {rule.sector ? ", with a landing sector" : ""}. Protests may be entered for {protestMinutes} minutes
        after the results of a round. Leave every numbered peg standing until protests have ended.
      </p>
      {may(who, "set the mark rule", id) ? (
        <MarkRuleForm
          slug={slug}
          marking={marking}
          pegs={controlPoints
            .filter(({ retired }) => !retired)
            .map(({ id: peg, name }) => ({ id: peg, name }))}
        />
      ) : (
        <p>The organiser sets these.</p>
      )}
      {entries > 0 && (
        <p>
          {entries} {entries === 1 ? "entry is" : "entries are"} made. Another rule changes their marks at
          once; the scorebook lists each.
        </p>
      )}
    </>
  );
}
