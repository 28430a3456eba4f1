import type { Metadata } from "next";
import { YardDesk } from "./yard-desk";

export const metadata: Metadata = { title: "Practice yard" };

export default function YardPage() {
  return (
    <>
      <h1>The practice yard</h1>
      <p>
        The yard or field where you test, with the same zones as a contest&rsquo;s, so that tests are done
        behind the same distances. It is kept in this browser alone, with or without a network; nobody else
        sees it, and nothing here is official.
      </p>
      <YardDesk />
    </>
  );
}
