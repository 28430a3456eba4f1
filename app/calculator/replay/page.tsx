import type { Metadata } from "next";
import { Account } from "../../_ui/account";
import { Shell } from "../../_ui/shell";
import { AccidentReplay } from "./accident-replay";

export const metadata: Metadata = {
  title: "Accident replay",
  description: "Which release, fault and tolerances explain where something landed.",
};

/** Open to anyone, with no account, for the machine that the calculator holds. */
export default function ReplayPage() {
  return (
    <Shell account={<Account />}>
      <h1>What explains where it landed?</h1>
      <p>
        Enter where something came down. The model is asked which release, which corner of the tolerances or
        which failure of the machine in the calculator brings it there. Several may, and none of them is
        proven: the safety officer decides when the range opens again.
      </p>
      <AccidentReplay />
    </Shell>
  );
}
