/** Seeks what would help, which takes many reckonings, without holding up those that are asked for meanwhile. */
import { answerWith } from "@/app/_ui/answer-in-worker";
import { breakage, type HazardRequest, whatWouldHelp } from "@/lib/throw";

answerWith((request: HazardRequest) => whatWouldHelp(request, breakage(request)));
