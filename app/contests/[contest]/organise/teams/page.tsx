import { allowed, overview, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import styles from "../organise.module.css";
import { DivisionForm, EntrantForm } from "./team-forms";

export const generateMetadata = titled("Divisions and teams");

export default async function TeamsPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer"]);
  const { divisions, entrants, machines } = await overview(slug);
  return (
    <>
      <h1>Divisions and teams</h1>
      <Table
        caption="Teams entered"
        stacks
        rows={[...entrants].sort((a, b) => a.number - b.number)}
        rowKey={({ id }) => id}
        empty="No team is entered yet."
        columns={[
          { key: "number", head: "No.", number: true, cell: ({ number }) => number },
          { key: "name", head: "Team", rowHead: true, cell: ({ name }) => name },
          {
            key: "division",
            head: "Division",
            cell: ({ divisionId }) => divisions.find(({ id }) => id === divisionId)?.name,
          },
          {
            key: "machine",
            head: "Machine",
            cell: ({ id }) =>
              machines
                .filter(({ entrantId }) => entrantId === id)
                .map(({ name }) => name)
                .join(", ") || "none yet",
          },
        ]}
      />
      {who.role === "organiser" ? (
        <div className={styles.two}>
          <section>
            <h2>Enter a team</h2>
            {divisions.length === 0 ? (
              <p>Make a division first: every team is entered in one.</p>
            ) : (
              <EntrantForm slug={slug} divisions={divisions} />
            )}
          </section>
          <section>
            <h2>Make a division</h2>
            {divisions.length > 0 && <p>So far: {divisions.map(({ name }) => name).join(", ")}.</p>}
            <DivisionForm slug={slug} />
          </section>
        </div>
      ) : (
        <p>The organiser enters teams and makes divisions.</p>
      )}
    </>
  );
}
