import { Notice } from "@/app/_ui/notice";
import { allowed, reading, titled } from "@/app/_ui/reading";
import { readRehearsal } from "@/lib/contest";
import { RehearsalDesk } from "./rehearsal-desk";

export const generateMetadata = titled("Rehearsal");

export default async function RehearsalPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser", "safety-officer"]);
  const first = await reading((db, asker) => readRehearsal(db, asker, slug));
  return (
    <>
      <h1>Rehearsal: practise hold</h1>
      <p>
        The program plays a day at speed: machines are raised, armed and fired, posts say clear, people walk
        out. At turns that nobody knows beforehand something goes wrong. Everybody keeps a page of this
        contest open on the phone that they will carry; whoever sees or hears it calls hold, as on the day.
        Marks, standings and the firing order stay as they are.
      </p>
      {first.possible ? (
        <RehearsalDesk slug={slug} first={first} />
      ) : (
        <Notice title="Not in this contest">
          <p>
            A rehearsal is played in the demo contest alone, so that it touches nothing of a real day. Open
            the demo contest, make a badge there for everybody who practises, and start it there.
          </p>
        </Notice>
      )}
    </>
  );
}
