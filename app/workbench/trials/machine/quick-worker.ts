/** Judges the newest throw at once, off the page's own thread and beside the search that takes seconds. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { quickly } from "./ask";

answerWith(quickly);
