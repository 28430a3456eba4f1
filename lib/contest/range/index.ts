/** The range of the day: what officials, posts and crews say, told to every open page. */
export { enterMachineState, nameApproach } from "./crews";
export { callHold } from "./hold";
export { beat, goCold, goHot, liftHold, setTimes, tickList } from "./hot";
export { sayAtPost } from "./posts";
export { eraseNames, readTally, tagFromPaper, tagIn, tagOut } from "./tally";
export { rangeView } from "./view";
export { rangeBriefNow } from "./watch";
