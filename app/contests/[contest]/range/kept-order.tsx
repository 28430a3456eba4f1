/** The range's own pages are true only while the server is heard: without a network the order alone opens from a phone. */
import { KeptHere } from "@/app/_ui/offline/kept-here";

export const KeptOrder = ({ slug }: { slug: string }) => (
  <KeptHere
    pages={[`/contests/${slug}/order`]}
    ready="Without a network the firing order opens from this phone. This page does not: it is true only while the server is heard."
  />
);
