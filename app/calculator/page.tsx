import type { Metadata } from "next";
import { Account } from "../_ui/account";
import { Shell } from "../_ui/shell";
import { Calculator } from "./calculator";

export const metadata: Metadata = {
  title: "Calculator",
  description: "How far a throwing machine could throw on its worst day, forwards and backwards.",
};

/** Open to anyone, with no account. */
export default function CalculatorPage() {
  return (
    <Shell account={<Account />}>
      <div className="no-print">
        <h1>How far could it throw?</h1>
        <p>
          Enter a machine on its drawing. See the throw as meant, and the worst ones, forwards and backwards:
          the projectile may come free at any instant. Nothing here is a clearance: the safety officer
          decides.
        </p>
      </div>
      <Calculator />
    </Shell>
  );
}
