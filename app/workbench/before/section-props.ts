/** What every section is given: the chosen revision as a request, and what may break of it once that is reckoned. */
import type { Breakage, HazardRequest } from "@/lib/throw";

export interface SectionProps {
  request: HazardRequest;
  /** Null while it is not known, or of earlier numbers. */
  found: Breakage | null;
  /** Of machine and revision. */
  title: string;
}
