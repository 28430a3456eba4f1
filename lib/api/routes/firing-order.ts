/** Who throws when. */
import { CONTEST, type RouteInfo } from "./shapes";

const ORDER = `${CONTEST}/firing-order`;
const MAKE = "make a firing order";

export const FIRING_ORDER: readonly RouteInfo[] = [
  {
    method: "get",
    path: ORDER,
    summary: "The firing order of the day with the times to be expected",
    description: "Times follow from the order, what each machine takes, and the pace of the last throws.",
    answer: "FiringOrder",
  },
  {
    method: "post",
    path: `${CONTEST}/firing-order-preview`,
    summary: "What planning the firing order anew would come to",
    who: MAKE,
    body: "OrderRequest",
    answer: "OrderProposal",
    keyless: true,
    refusals: { 409: "Nothing is left to throw, or no machine is ready." },
  },
  {
    method: "post",
    path: ORDER,
    summary: "Plan the firing order of the rest of the day",
    description:
      "Every machine that is declared and placed gets a turn in each round that is left, in the shortest day found in which nobody re-arms inside a live zone, nobody waits unfairly long and the order rotates. What was thrown stays as it was; of what was told before as little as possible is moved.",
    who: MAKE,
    body: "OrderRequest",
    answer: "FiringOrder",
    status: 201,
    refusals: { 409: "Nothing is left to throw, no machine is ready, or the order changed meanwhile." },
  },
  {
    method: "put",
    path: `${CONTEST}/turns/{id}/place`,
    summary: "Put a turn elsewhere in the order, or pass it over",
    description: "The id is that of its shot. Nobody else changes places.",
    who: "move a turn",
    body: "TurnMove",
    answer: "FiringOrder",
    refusals: { 409: "It was thrown already, or its team does not compete." },
  },
  {
    method: "put",
    path: `${CONTEST}/machines/{id}/times`,
    summary: "Say how long a machine takes to re-arm and to throw, and whether it is late",
    description: "The next planning goes by it; the times to be expected do so at once.",
    who: "say how long a machine takes",
    body: "MachineTimesRequest",
    answer: "MachineTimes",
  },
];
