import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { listEntries, listEntryLinks } from "@/lib/contest";
import { EntryList } from "./entry-list";
import { LinkForm } from "./link-form";
import { LinkList } from "./link-list";

export const generateMetadata = titled("Entries by teams");

export default async function EntriesPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { divisions, sequence } = await overview(slug);
  const entries = await reading((db, asking) => listEntries(db, asking, slug));
  const organiser = who.role === "organiser";
  const links = organiser ? await reading((db, asking) => listEntryLinks(db, asking, slug)) : [];
  return (
    <>
      <h1>Entries by teams</h1>
      <p>
        Teams enter themselves by your link: people, insurance, machine, photographs. An entry becomes a team
        with its machine and its badge only when you accept it.
      </p>
      <EntryList slug={slug} entries={entries} divisions={divisions} sequence={sequence} />
      {organiser ? (
        <>
          <h2>Make a link</h2>
          {divisions.length === 0 ? (
            <p>Make a division first: every team chooses one.</p>
          ) : (
            <LinkForm slug={slug} />
          )}
          <h2>Links made</h2>
          <LinkList slug={slug} links={links} />
        </>
      ) : (
        <p>The organiser makes the links, accepts, and erases.</p>
      )}
    </>
  );
}
