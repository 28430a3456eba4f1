import { allowed, overview, reading, titled } from "@/app/_ui/reading";
import { may, rangeView } from "@/lib/contest";
import { KeptOrder } from "../range/kept-order";
import { CrewDesk } from "./crew-desk";

export const generateMetadata = titled("Crew");

export default async function CrewPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const who = await allowed(slug, ["safety-officer", "team"]);
  const { id } = await overview(slug);
  const first = await reading((db) => rangeView(db, slug, {}));
  const own = first.machines.filter(({ entrantId }) => may(who, "enter a machine's state", id, entrantId));
  return (
    <>
      <h1>Crew</h1>
      <CrewDesk slug={slug} first={first} own={own.map((machine) => machine.id)} />
      <KeptOrder slug={slug} />
    </>
  );
}
