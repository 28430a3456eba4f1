/** What goes wrong, in words. */
import type { Surprise } from "@/lib/rehearsal";

export const SURPRISE_WORDS: Record<Surprise, string> = {
  misfire: "A misfire, and somebody walks to the machine",
  injury: "Somebody is hurt in a live zone",
  "dead-phone": "A post’s phone is dead",
  "lost-network": "The safety officer’s page loses the network",
};
