/** The rules of site features in words. */
import type { FeatureRule } from "@/lib/zones/kinds";

export const RULE_WORDS: Record<FeatureRule, string> = {
  contains: "every zone stays inside",
  protected: "protected always",
  hot: "protected while the range is hot",
  sheltered: "sheltered: people stay under cover",
  crossable: "may be crossed",
};
