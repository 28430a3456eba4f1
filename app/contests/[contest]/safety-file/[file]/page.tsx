import type { Metadata } from "next";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { allowed, overview, reading } from "@/app/_ui/reading";
import { safetyFile } from "@/lib/contest";
import { SafetyPaper } from "../paper";

type Props = { params: Promise<{ contest: string; file: string }> };

export async function generateMetadata({ params }: Props): Promise<Metadata> {
  return { title: `Frozen safety file, ${(await overview((await params).contest)).name}` };
}

export default async function FrozenFilePage({ params }: Props) {
  const { contest: slug, file: id } = await params;
  const who = await allowed(slug, ["organiser", "safety-officer", "judge"]);
  const { units } = await overview(slug);
  const file = await reading((db) => safetyFile(db, who, slug, id));
  const system = await readerUnits(units);
  return (
    <>
      <p className="no-print button-row">
        <PrintButton>Print this file</PrintButton>
        <a className="button button-plain" href={`/api/v1/contests/${slug}/safety-files/${id}/text`} download>
          Download as JSON
        </a>
      </p>
      <SafetyPaper body={file.body} frozen={file} system={system} />
    </>
  );
}
