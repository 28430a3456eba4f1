import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { listBadges } from "@/lib/contest";
import { BadgeForm, BadgeList } from "./badge-forms";

export const generateMetadata = titled("Badges");

export default async function BadgesPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  await allowed(slug, ["organiser"]);
  const badges = await reading((db, who) => listBadges(db, who, slug));
  const { name, entrants } = await overview(slug);
  return (
    <>
      <h1>Badges</h1>
      <p>
        A badge is how an official or a team signs in. Its code is shown once, when it is made, and never
        stored: print its card or write it down then. Lost one? Revoke it and make another.
      </p>
      <h2>Make a badge</h2>
      <BadgeForm slug={slug} contest={name} entrants={entrants} />
      <h2>Badges made</h2>
      <BadgeList slug={slug} badges={badges} entrants={entrants} />
    </>
  );
}
