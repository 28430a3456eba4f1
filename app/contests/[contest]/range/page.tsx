import { ButtonLink } from "@/app/_ui/button";
import { asker, overview, reading, titled } from "@/app/_ui/reading";
import { may, rangeView } from "@/lib/contest";
import { KeptOrder } from "./kept-order";
import { RangeDesk } from "./range-desk";
import { TimesForm } from "./times-form";

export const generateMetadata = titled("Range");

export default async function RangePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { id } = await overview(slug);
  const who = await asker();
  const waiting = await reading((db) => rangeView(db, slug, {}));
  const armed = waiting.machines.find(({ state }) => state !== "safe");
  const first = armed ? await reading((db) => rangeView(db, slug, { machine: armed.id })) : waiting;
  const run = may(who, "put the range hot or cold", id);
  return (
    <>
      <h1>Range</h1>
      <RangeDesk
        slug={slug}
        first={first}
        rights={{
          run,
          tick: may(who, "tick the stand-clear list", id),
          approach: may(who, "name who approaches a misfire", id),
        }}
      />
      <p className="button-row">
        {may(who, "say clear at a post", id) && <ButtonLink href={`/contests/${slug}/post`}>Post</ButtonLink>}
        {may(who, "keep the tally", id) && <ButtonLink href={`/contests/${slug}/tally`}>Tally</ButtonLink>}
        {run && <ButtonLink href={`/contests/${slug}/crew`}>Crew: machines’ states</ButtonLink>}
        {may(who, "enter an incident", id) && (
          <ButtonLink href={`/contests/${slug}/incidents/new`}>Enter an incident</ButtonLink>
        )}
        {may(who, "see incidents", id) && (
          <ButtonLink href={`/contests/${slug}/incidents`}>Incidents</ButtonLink>
        )}
        {may(who, "play a rehearsal", id) && (
          <ButtonLink href={`/contests/${slug}/rehearsal`}>Practise hold</ButtonLink>
        )}
      </p>
      {may(who, "set the times of the range", id) && <TimesForm slug={slug} times={first.times} />}
      <KeptOrder slug={slug} />
    </>
  );
}
