/** From marks and rulings to standings. Pure: what the rules of the event say and nothing else. */
export * from "./close-calls";
export * from "./mark";
export * from "./standings";
