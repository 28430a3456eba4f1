import type { Metadata } from "next";
import { ShareDesk } from "./share-desk";

export const metadata: Metadata = { title: "Share" };

export default function SharePage() {
  return (
    <>
      <h1 className="no-print">Hand it on</h1>
      <ShareDesk />
    </>
  );
}
