import { ButtonLink } from "@/app/_ui/button";
import { KeptHere } from "@/app/_ui/offline/kept-here";
import { asker, overview, reading, titled } from "@/app/_ui/reading";
import { firingOrder } from "@/lib/contest";
import { crewMachines } from "./crew-machines";
import { MachineTimesList } from "./machine-times-list";
import { OrderDesk } from "./order-desk";

export const generateMetadata = titled("Firing order");

/** For everyone: who throws next, when one's own turn comes, and the whole day. */
export default async function OrderPage({ params }: { params: Promise<{ contest: string }> }) {
  const { contest: slug } = await params;
  const { sequence } = await overview(slug);
  const order = await reading((db) => firingOrder(db, slug));
  const who = await asker();
  const here = who?.contestSlug === slug ? who : null;
  const own = here?.entrantId
    ? (await crewMachines(slug)).filter(({ entrantId }) => entrantId === here.entrantId)
    : [];
  return (
    <>
      <h1>Firing order</h1>
      <OrderDesk slug={slug} first={order} sequence={sequence} own={here?.entrantId ?? null} />
      {own.length > 0 && (
        <>
          <h2>How long your machine takes</h2>
          <p>
            Say how long your crew needs between two throws, and if you are late: the times follow at once,
            the order when the organiser plans it anew.
          </p>
          <MachineTimesList slug={slug} machines={own} rules={order.rules} mayChange />
        </>
      )}
      <p className="button-row">
        <ButtonLink href={`/contests/${slug}/order/paper`}>The order on paper</ButtonLink>
        <ButtonLink href={`/contests/${slug}/order/tally`}>Tally sheet on paper</ButtonLink>
        {here && here.role !== "team" && (
          <ButtonLink href={`/contests/${slug}/organise/rounds`}>Plan and change the order</ButtonLink>
        )}
      </p>
      <KeptHere
        pages={[`/contests/${slug}/order`]}
        ready="Without a network this page opens from this phone, with the order as it was last heard."
      />
    </>
  );
}
