/** Machines, their revisions and sheets. */
import { CONTEST, type RouteInfo, TAKEN } from "./shapes";

const SEE_MACHINE = "see a machine's declaration and sheet";
const MACHINE = `${CONTEST}/machines/{id}`;

export const MACHINES: readonly RouteInfo[] = [
  {
    method: "post",
    path: `${CONTEST}/machines`,
    summary: "Enter a machine",
    who: "enter a machine",
    body: "MachineRequest",
    answer: "Machine",
    status: 201,
    refusals: TAKEN,
  },
  {
    method: "get",
    path: MACHINE,
    summary: "A machine with its revisions and sheets",
    who: SEE_MACHINE,
    answer: "MachinePage",
  },
  {
    method: "patch",
    path: MACHINE,
    summary: "Name a machine anew, retire it or bring it back",
    description: "Retired it leaves the firing line and has no zone; what it threw stays.",
    who: "enter a machine",
    body: "MachineChange",
    answer: "Machine",
    refusals: { 409: "The name is another's, or it has a turn to throw." },
  },
  {
    method: "post",
    path: `${MACHINE}/revisions`,
    summary: "Declare a new revision of a machine",
    description: "Append-only. The sheet of the one before is stale from now on.",
    who: "declare a machine revision",
    body: "RevisionRequest",
    answer: "Revision",
    status: 201,
  },
  {
    method: "patch",
    path: `${MACHINE}/placement`,
    summary: "Place a machine at a firing point with a bearing",
    who: "place a machine",
    body: "PlacementRequest",
    answer: "Machine",
  },
  {
    method: "get",
    path: `${MACHINE}/sheet`,
    summary: "The current hazard sheet of a machine",
    description: "Waits some seconds for one that is missing; `state` says what there is.",
    who: SEE_MACHINE,
    answer: "Sheet",
  },
];
