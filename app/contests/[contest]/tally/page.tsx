import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { may, rangeView, readTally } from "@/lib/contest";
import { KeptOrder } from "../range/kept-order";
import { TallyDesk } from "./tally-desk";

export const generateMetadata = titled("Tally");

export default async function TallyPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const { id } = await overview(slug);
  const first = await reading((db) => rangeView(db, slug, {}));
  const tally = await reading((db, asker) => readTally(db, asker, slug));
  return (
    <>
      <h1>Tally</h1>
      <TallyDesk
        slug={slug}
        first={first}
        tally={tally}
        mayErase={may(who, "erase names of the tally", id)}
      />
      <KeptOrder slug={slug} />
    </>
  );
}
