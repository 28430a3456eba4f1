/** Looks for what explains a place, off the page's own thread. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { explained } from "./ask";

answerWith(explained);
