/** Inspections of machines, and firing permits. */
import { CONTEST, type RouteInfo } from "./shapes";

const SEE = "see inspections and firing permits";
const SIGN = "sign and withdraw firing permits";
const MACHINE = `${CONTEST}/machines/{id}`;

export const CLEARANCE: readonly RouteInfo[] = [
  {
    method: "get",
    path: `${CONTEST}/clearance`,
    summary: "How far every machine has come: its newest inspection, and whether its firing permit stands",
    description: "A team is shown its own machines.",
    who: SEE,
    answer: "ClearanceList",
  },
  {
    method: "get",
    path: `${MACHINE}/clearance`,
    summary: "All inspections and firing permits of a machine, the newest first",
    who: SEE,
    answer: "MachineClearance",
  },
  {
    method: "post",
    path: `${MACHINE}/inspections`,
    summary: "Write down an inspection of the newest revision of a machine",
    description:
      "Every line of the checklist of its kind is answered. A line that fails, or a number outside its declared tolerance, refuses the machine.",
    who: "inspect a machine",
    body: "InspectionRequest",
    answer: "Inspection",
    status: 201,
    refusals: { 409: "It has another revision by now, or none." },
  },
  {
    method: "post",
    path: `${MACHINE}/measured-revisions`,
    summary: "Declare a new revision with the numbers that were measured outside their tolerance",
    description: "All other numbers stay as declared. Its hazard sheet is begun at once.",
    who: "revise a machine as measured",
    body: "MeasuredRevisionRequest",
    answer: "Revision",
    status: 201,
    refusals: { 409: "It has another revision by now, or none." },
  },
  {
    method: "post",
    path: `${MACHINE}/permits`,
    summary: "Sign a firing permit for a revision at a firing point on a bearing, within limits",
    description:
      "It names what was read. It falls by itself when the revision, the place, the bearing, the policy, the air or the sheet changes, when the wind passes its limit, an alarm sounds or a later inspection says otherwise; it waits while no reading of the wind is in force.",
    who: SIGN,
    body: "PermitRequest",
    answer: "Permit",
    status: 201,
    refusals: {
      409: "What was read is not what is there now, it was not inspected or was refused, or the wind is too strong.",
    },
  },
  {
    method: "post",
    path: `${CONTEST}/permits/{id}/withdrawal`,
    summary: "Take a firing permit back",
    who: SIGN,
    body: "PermitWithdrawal",
    answer: "Permit",
    status: 201,
    refusals: { 409: "It has been taken back already." },
  },
];
