/** Looks for the next setting, off the page's own thread. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { trials } from "@/lib/throw";

answerWith(trials.nextSetting);
