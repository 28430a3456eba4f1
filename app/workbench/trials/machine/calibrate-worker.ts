/** Works out what the throws say of the machine, off the page's own thread. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { calibrated } from "./ask";

answerWith(calibrated);
