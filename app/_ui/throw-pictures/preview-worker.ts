/** Runs the quick preview off the page's own thread, so that typing never waits for physics. */
import { preview } from "@/lib/throw";
import { answerWith } from "../answer-in-worker";

answerWith(preview);
