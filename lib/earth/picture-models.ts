/** How a picture may be laid on the ground. By itself, so that contracts need no geodesics. */
export const PICTURE_MODELS = ["similarity", "affine"] as const;
export type PictureModel = (typeof PICTURE_MODELS)[number];
