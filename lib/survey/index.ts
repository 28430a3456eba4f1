/** Measuring a landing point: each method from what a judge enters to a point, its covariance and a mark. */
export * from "./fix";
export * from "./locate";
