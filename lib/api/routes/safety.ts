/** Paper: the register of consents, the safety plan, the range plan, and the safety file that freezes them. */
import { CONTEST, type RouteInfo } from "./shapes";

const KEEP = "keep the register of consents and the safety plan";
const SEE = "see consents, safety plan and safety files";

export const SAFETY: readonly RouteInfo[] = [
  {
    method: "get",
    path: `${CONTEST}/consents`,
    summary: "The register of consents, with what is missing or ends too soon",
    who: SEE,
    answer: "Consents",
  },
  {
    method: "post",
    path: `${CONTEST}/consents`,
    summary: "Enter a consent",
    description: "What the party is called stays out of the scorebook.",
    who: KEEP,
    body: "ConsentRequest",
    answer: "Consent",
    status: 201,
  },
  {
    method: "patch",
    path: `${CONTEST}/consents/{id}`,
    summary: "Change or retire a consent",
    who: KEEP,
    body: "ConsentChange",
    answer: "Consent",
  },
  {
    method: "get",
    path: `${CONTEST}/safety-plan`,
    summary: "The safety plan, or its defaults while nobody has written one",
    who: SEE,
    answer: "SafetyPlan",
  },
  {
    method: "put",
    path: `${CONTEST}/safety-plan`,
    summary: "Write the whole safety plan anew",
    who: KEEP,
    body: "SafetyPlanRequest",
    answer: "SafetyPlan",
    refusals: { 409: "It was changed since it was read." },
  },
  {
    method: "get",
    path: `${CONTEST}/range-plan`,
    summary: "What the range plan draws and says, at one entry of the scorebook",
    answer: "RangePlan",
  },
  {
    method: "get",
    path: `${CONTEST}/safety-files`,
    summary: "Frozen safety files, and what one frozen now would lack",
    who: SEE,
    answer: "SafetyFiles",
  },
  {
    method: "post",
    path: `${CONTEST}/safety-files`,
    summary: "Freeze a safety file with its hash",
    description: "What is missing does not stop it: it stands in the file. The hash stands in the scorebook.",
    who: "freeze a safety file",
    body: "SafetyFileRequest",
    answer: "SafetyFileSummary",
    status: 201,
    refusals: { 409: "The contest changed while the file was being made." },
  },
  {
    method: "get",
    path: `${CONTEST}/safety-files/{id}`,
    summary: "One frozen file, whether it holds, and what was changed since",
    who: SEE,
    answer: "SafetyFile",
  },
  {
    method: "get",
    path: `${CONTEST}/safety-files/{id}/text`,
    summary: "The frozen text byte for byte: canonical JSON whose SHA-256 is the hash",
    who: SEE,
    answer: "SafetyFileBody",
  },
];
