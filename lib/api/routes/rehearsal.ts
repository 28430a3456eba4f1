/** A played day in the demo contest, for officials to practise hold. */
import { CONTEST, type RouteInfo } from "./shapes";

const REHEARSAL_PATH = `${CONTEST}/rehearsal`;
const WHO = "play a rehearsal";

export const REHEARSAL: readonly RouteInfo[] = [
  {
    method: "get",
    path: REHEARSAL_PATH,
    summary: "Rehearsals that were played, and how soon hold was called",
    who: WHO,
    answer: "Rehearsal",
  },
  {
    method: "post",
    path: REHEARSAL_PATH,
    summary: "Play a day at speed, in which things go wrong",
    description:
      "In the demo contest alone. The program plays the crews, the judges and the posts, and the safety officer where `people` says so; people call hold as on the day.",
    who: WHO,
    body: "RehearsalRequest",
    answer: "Rehearsal",
    status: 201,
    refusals: { 409: "Not the demo contest, or its range is not cold and empty." },
  },
  {
    method: "post",
    path: `${REHEARSAL_PATH}/end`,
    summary: "End the rehearsal",
    who: WHO,
    body: "Nothing",
    answer: "Rehearsal",
    refusals: { 409: "None is played." },
  },
];
