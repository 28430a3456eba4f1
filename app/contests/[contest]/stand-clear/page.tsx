import { Caution } from "@/app/_ui/caution";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { PrintButton } from "@/app/_ui/print-button";
import { readerUnits } from "@/app/_ui/reader-units";
import { overview, reading, titled } from "@/app/_ui/reading";
import { contestDays } from "@/app/_ui/words";
import { MissingZones } from "@/app/_ui/zones/missing-zones";
import { StandClearList } from "@/app/_ui/zones/stand-clear-list";
import { contestZones } from "@/lib/contest";

export const generateMetadata = titled("Stand-clear lists");

/** For the clipboard at the line: one list a machine, with boxes to tick. */
export default async function StandClearPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { name, units } = await overview(slug);
  const zones = await reading((db) => contestZones(db, slug));
  const system = await readerUnits(units);
  const machines = zones.features.map(({ properties }) => properties);
  return (
    <>
      <h1>Who stands clear</h1>
      <p>
        {name}, {contestDays({ date: zones.day, lastDate: zones.lastDay })}
      </p>
      <div className="no-print">
        <MissingZones machines={zones.without} what="This page" renew />
        <p>
          <PrintButton>Print these lists</PrintButton>
        </p>
        <KeptHere
          pages={[`/contests/${slug}/stand-clear`]}
          ready="Without a network these lists open from this phone."
        />
      </div>
      <Caution title="failures may exceed every zone">
        <p>{zones.caution}</p>
      </Caution>
      {machines.length === 0 ? (
        <p>No machine has a firing point and a bearing yet, so there is no list.</p>
      ) : (
        <StandClearList zones={machines} system={system} />
      )}
    </>
  );
}
