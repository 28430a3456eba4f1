/** Reckons loads, dry fire and torn sling off the page's own thread. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { breakage } from "@/lib/throw";

answerWith(breakage);
