import type { Metadata } from "next";
import { FilmDesk } from "./film-desk";

export const metadata: Metadata = {
  title: "The throw as a film",
  description: "A machine's throw, scrubbed and played slowly, with the forces on sling, arm and pivot.",
};

export default function FilmPage() {
  return (
    <>
      <h1>The throw as a film</h1>
      <p>
        Drag the instant, or play it slowly: where everything is, what pulls on what, and where it lands.
        Computed in this browser, with or without a network.
      </p>
      <FilmDesk />
    </>
  );
}
