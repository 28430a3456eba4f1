import type { Metadata } from "next";
import { reading } from "@/app/_ui/reading";
import { shotHistory } from "@/lib/contest";
import { ShotRecord } from "./shot-record";

export const metadata: Metadata = { title: "History of a shot" };

export default async function ShotPage({ params }: { params: Promise<{ contest: string; shot: string }> }) {
  const { contest: slug, shot: id } = await params;
  const history = await reading((db) => shotHistory(db, slug, id));
  const { shot } = history;
  return (
    <>
      <h1>
        Round {shot.round}, {shot.entrantNumber} {shot.entrantName}
      </h1>
      <ShotRecord slug={slug} history={history} />
    </>
  );
}
