import { asker, overview, reading, titled } from "@/app/_ui/reading";
import { READING_LASTS } from "@/lib/api/contracts";
import { may, windReadings } from "@/lib/contest";
import { WindDesk } from "./wind-desk";

export const generateMetadata = titled("Wind of the day");

export default async function WindPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { id, sequence, declination } = await overview(slug);
  const first = await reading((db) => windReadings(db, slug));
  const who = await asker();
  return (
    <>
      <h1>Wind of the day</h1>
      <WindDesk
        slug={slug}
        first={first}
        sequence={sequence}
        declination={declination}
        lasting={READING_LASTS}
        mayRead={may(who, "read the wind", id)}
        label={who?.label ?? ""}
      />
    </>
  );
}
