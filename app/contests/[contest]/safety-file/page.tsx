import Link from "next/link";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { Table } from "@/app/_ui/table";
import { instantText } from "@/app/_ui/words";
import { listSafetyFiles, may, safetyFileDraft } from "@/lib/contest";
import { FreezeForm } from "./freeze-form";
import { SafetyPaper } from "./paper";

export const generateMetadata = titled("Safety file");

/** The files that were frozen, and what one frozen now would say. */
export default async function SafetyFilePage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const { id, units } = await overview(slug);
  const { files } = await reading((db) => listSafetyFiles(db, who, slug));
  const draft = await reading((db) => safetyFileDraft(db, who, slug));
  const system = await readerUnits(units);
  const count = draft.missing.length;
  return (
    <>
      <div className="no-print">
        <h1>Safety file</h1>
        <p>
          For insurer, landowner and emergency services: the range, every machine&rsquo;s hazard sheet, the
          policy, the emergency plan and the consents. Frozen, it gets a number and a hash that stands in the
          scorebook; nobody can change it afterwards.
        </p>
        <h2>Frozen files</h2>
        <Table
          caption="Frozen safety files"
          stacks
          hideCaption
          rows={files}
          rowKey={(file) => file.id}
          empty="None is frozen yet."
          columns={[
            {
              key: "number",
              head: "File",
              rowHead: true,
              cell: (file) => (
                <Link href={`/contests/${slug}/safety-file/${file.id}`} prefetch={false}>
                  Safety file {file.number}
                </Link>
              ),
            },
            { key: "at", head: "Frozen", cell: (file) => `${instantText(file.createdAt)} by ${file.by}` },
            { key: "note", head: "For", cell: (file) => file.note || "–" },
            { key: "missing", head: "Missing", number: true, cell: (file) => file.missing },
          ]}
        />
        {may(who, "freeze a safety file", id) && (
          <>
            <h2>Freeze one now</h2>
            <p>
              {count} {count === 1 ? "thing is" : "things are"} missing, listed below. That does not stop it:
              the list stands on its first page.
            </p>
            <FreezeForm slug={slug} />
          </>
        )}
        <h2>As it stands now</h2>
        <p className="button-row">
          <PrintButton>Print this draft</PrintButton>
        </p>
      </div>
      <SafetyPaper body={draft} frozen={null} system={system} />
    </>
  );
}
