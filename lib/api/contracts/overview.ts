/** What whole pages show: a contest with everything laid out, a machine with its revisions and sheets. */
import { z } from "zod";
import { airSchema, policySchema } from "../../throw/contracts";
import { aerialPictureSchema } from "./aerial";
import { barrierInfoSchema } from "./barriers";
import {
  contestSummarySchema,
  divisionSchema,
  entrantSchema,
  featureSchema,
  firingPointSchema,
} from "./contest";
import { machineSchema, revisionSchema, sheetAnswerSchema } from "./machines";
import { count, idSchema, instant } from "./parts";
import { controlPointSchema, spotHeightSchema } from "./range-points";

export const machinePageSchema = z.object({
  machine: machineSchema,
  entrant: entrantSchema,
  firingPoint: firingPointSchema.nullable(),
  /** Newest first. */
  revisions: z.array(
    revisionSchema.extend({
      sheets: z.array(
        z.object({
          id: idSchema,
          inputHash: z.string(),
          codeVersion: z.string(),
          createdAt: instant,
          current: z.boolean(),
          forward: z.number(),
          backward: z.number(),
        }),
      ),
    }),
  ),
  current: sheetAnswerSchema,
});
export type MachinePage = z.infer<typeof machinePageSchema>;

export const contestOverviewSchema = contestSummarySchema.extend({
  policy: policySchema,
  air: airSchema,
  divisions: z.array(divisionSchema),
  entrants: z.array(entrantSchema),
  firingPoints: z.array(firingPointSchema),
  /** Retired ones too. */
  features: z.array(featureSchema),
  /** Retired ones too. */
  controlPoints: z.array(controlPointSchema),
  /** Retired ones too. */
  spotHeights: z.array(spotHeightSchema),
  /** Without their content; retired ones too. */
  aerialPictures: z.array(aerialPictureSchema),
  /** Newest first; retired ones too. */
  barriers: z.array(barrierInfoSchema),
  machines: z.array(machineSchema),
  /** Rounds that have a firing order, with how many of their shots have an entry. */
  roundsMade: z.array(z.object({ round: count, shots: count, entered: count })),
  /** Sequence of the newest scorebook entry. */
  sequence: count,
});
export type ContestOverview = z.infer<typeof contestOverviewSchema>;
