/** The mark rule in words. */
import type { MarkingInfo } from "@/lib/api/contracts";

type Rule = MarkingInfo["rule"];

export const LANDING_WORDS: Record<Rule["landing"], string> = {
  "first-impact": "the first impact",
  rest: "where it comes to rest",
};

export const UNIT_WORDS: Record<Rule["unit"], string> = {
  "1cm": "whole centimetres",
  "0.1m": "tenths of a metre",
  "1in": "whole inches",
  "1ft": "whole feet",
};
