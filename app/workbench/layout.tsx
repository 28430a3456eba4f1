import type { Metadata } from "next";
import type { ReactNode } from "react";
import { Account } from "../_ui/account";
import { FocusKeeper } from "../_ui/focus-keeper";
import { KeptHere } from "../_ui/offline/kept-here";
import { Shell } from "../_ui/shell";
import "../_ui/machine-form/machine-form.css";
import "../_ui/throw-pictures/pictures.css";
import { StopBanner } from "./alarm/stop-banner";
import { AlarmProvider } from "./alarm/use-alarm";
import { ReceivedProvider } from "./alarm/use-received";
import { BenchProvider } from "./bench/use-bench";
import { KeptNotices } from "./kept/kept-notices";
import { PAGES } from "./pages";
import { PagesNav } from "./pages-nav";
import { RevisionChoice } from "./revision-choice";
import { LogProvider } from "./trials/log/use-log";

export const metadata: Metadata = {
  title: "Workbench",
  description: "What a machine will do, what may break, and what to change before the day.",
};

const HREFS = PAGES.map(({ href }) => href);

/** Open to anyone, with no account: everything stays in this browser. */
export default function WorkbenchLayout({ children }: { children: ReactNode }) {
  return (
    <Shell account={<Account />}>
      <ReceivedProvider>
        <BenchProvider>
          <PagesNav />
          <FocusKeeper />
          <LogProvider>
            <AlarmProvider>
              <StopBanner />
              <KeptNotices />
              <RevisionChoice />
              {children}
            </AlarmProvider>
          </LogProvider>
          <KeptHere pages={HREFS} ready="Without a network the workbench opens from this device." />
        </BenchProvider>
      </ReceivedProvider>
    </Shell>
  );
}
