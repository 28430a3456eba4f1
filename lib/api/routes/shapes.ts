/** What a route is, and the named shapes that routes take and give. */
import { z } from "zod";
import type { Act } from "../../contest/roles";
import {
  dispersionRequestSchema,
  dispersionSchema,
  hazardRequestSchema,
  hazardSheetSchema,
  replayRequestSchema,
  replaySchema,
} from "../../throw/contracts";
import * as contracts from "../contracts";

/** Named shapes: requests as they may be sent, answers as they are given. */
export const REQUESTS = {
  HazardRequest: hazardRequestSchema,
  DispersionRequest: dispersionRequestSchema,
  ReplayRequest: replayRequestSchema,
  ContestRequest: contracts.contestRequest,
  SetupRequest: contracts.setupRequest,
  SignInRequest: contracts.signInRequest,
  DivisionRequest: contracts.divisionRequest,
  EntrantRequest: contracts.entrantRequest,
  FiringPointRequest: contracts.firingPointRequest,
  FiringPointChange: contracts.firingPointChange,
  ContestChange: contracts.contestChange,
  FeatureAllowance: contracts.featureAllowance,
  MachineChange: contracts.machineChange,
  FeatureRequest: contracts.featureRequest,
  FeatureChange: contracts.featureChange,
  BarrierRequest: contracts.barrierRequest,
  BarrierRetirement: contracts.barrierRetirement,
  ControlPointRequest: contracts.controlPointRequest,
  ControlPointChange: contracts.controlPointChange,
  SpotHeightRequest: contracts.spotHeightRequest,
  SpotHeightChange: contracts.spotHeightChange,
  AerialPictureRequest: contracts.aerialPictureRequest,
  AerialPictureChange: contracts.aerialPictureChange,
  MachineRequest: contracts.machineRequest,
  RevisionRequest: contracts.revisionRequest,
  PlacementRequest: contracts.placementRequest,
  PlacingRequest: contracts.placingRequest,
  IncidentRequest: contracts.incidentRequest,
  IncidentReportRequest: contracts.incidentReportRequest,
  IncidentPieceRequest: contracts.pieceRequest,
  IncidentWordsRequest: contracts.incidentWordsRequest,
  InspectionRequest: contracts.inspectionRequest,
  MeasuredRevisionRequest: contracts.measuredRevisionRequest,
  PermitRequest: contracts.permitRequest,
  PermitWithdrawal: contracts.permitWithdrawal,
  PolicyRequest: contracts.policyRequest,
  AirRequest: contracts.airRequest,
  WindReadingRequest: contracts.windReadingRequest,
  RoundRequest: contracts.roundRequest,
  OrderRequest: contracts.orderRequest,
  TurnMove: contracts.turnMove,
  MachineTimesRequest: contracts.machineTimesRequest,
  FixRequest: contracts.fixRequest,
  HeldDecisionRequest: contracts.heldDecisionRequest,
  SightingRequest: contracts.sightingRequest,
  RulingRequest: contracts.rulingRequest,
  ProtestRequest: contracts.protestRequest,
  MarkRuleRequest: contracts.markRuleRequest,
  BadgeRequest: contracts.badgeRequest,
  EntryLinkRequest: contracts.entryLinkRequest,
  EntryLinkChange: contracts.entryLinkChange,
  EntryRequest: contracts.entryRequest,
  EntryDraft: contracts.entryDraft,
  /** The file's bytes. */
  PhotographRequest: z.string(),
  AcceptanceRequest: contracts.acceptanceRequest,
  EntryAnswerRequest: contracts.entryAnswerRequest,
  ErasureRequest: contracts.erasureRequest,
  BadgeChange: contracts.badgeChange,
  CodeRequest: contracts.codeRequest,
  ConsentRequest: contracts.consentRequest,
  ConsentChange: contracts.consentChange,
  SafetyPlanRequest: contracts.safetyPlanRequest,
  SafetyFileRequest: contracts.safetyFileRequest,
  HoldRequest: contracts.holdRequest,
  LiftRequest: contracts.liftRequest,
  HotRequest: contracts.hotRequest,
  ColdRequest: contracts.coldRequest,
  BeatRequest: contracts.beatRequest,
  PostRequest: contracts.postRequest,
  TickRequest: contracts.tickRequest,
  MachineStateRequest: contracts.machineStateRequest,
  ApproachRequest: contracts.approachRequest,
  TimesRequest: contracts.timesRequest,
  TagRequest: contracts.tagRequest,
  PaperTagRequest: contracts.paperTagRequest,
  RehearsalRequest: contracts.rehearsalRequest,
  /** The file's bytes. */
  SiteFileRequest: z.string(),
  ImportRequest: contracts.importRequest,
  /** Where the address and the key say all. */
  Nothing: z.strictObject({}),
} as const;

export const ANSWERS = {
  Problem: contracts.problemSchema,
  HazardSheet: hazardSheetSchema,
  Dispersion: dispersionSchema,
  Replay: replaySchema,
  ContestList: z.object({ contests: z.array(contracts.contestSummarySchema) }),
  Contest: contracts.contestOverviewSchema,
  ContestSummary: contracts.contestSummarySchema,
  NewContest: contracts.newContestSchema,
  Me: contracts.meSchema,
  Division: contracts.divisionSchema,
  Entrant: contracts.entrantSchema,
  FiringPoint: contracts.firingPointSchema,
  Feature: contracts.featureSchema,
  Barrier: contracts.barrierInfoSchema,
  ControlPoint: contracts.controlPointSchema,
  SpotHeight: contracts.spotHeightSchema,
  AerialPicture: contracts.aerialPictureSchema,
  /** Bytes. */
  Picture: z.string(),
  Machine: contracts.machineSchema,
  MachinePage: contracts.machinePageSchema,
  Revision: contracts.revisionSchema,
  Sheet: contracts.sheetAnswerSchema,
  IncidentReceipt: contracts.incidentReceiptSchema,
  Incidents: contracts.incidentsSchema,
  Incident: contracts.incidentSchema,
  IncidentReplays: contracts.incidentReplaysSchema,
  Inspection: contracts.inspectionSchema,
  Permit: contracts.permitSchema,
  MachineClearance: contracts.machineClearanceSchema,
  ClearanceList: contracts.clearanceListSchema,
  Fit: contracts.fitSchema,
  Cures: contracts.curesSchema,
  ClearBearings: contracts.clearBearingsSchema,
  LandingContours: contracts.landingContoursSchema,
  Placing: contracts.placingSchema,
  Plan: contracts.planSchema,
  Placed: z.object({ machines: z.array(contracts.machineSchema) }),
  Policy: z.object({ policy: contracts.contestPolicySchema }),
  Air: contracts.airRequest.pick({ air: true }),
  WindReading: contracts.windReadingSchema,
  WindHistory: contracts.windHistorySchema,
  Zones: contracts.zonesSchema,
  FiringOrder: contracts.firingOrderSchema,
  OrderProposal: contracts.orderProposalSchema,
  MachineTimes: contracts.machineTimesSchema,
  Shots: contracts.shotsSchema,
  ShotHistory: contracts.shotHistorySchema,
  Fix: contracts.fixAnswerSchema,
  HeldFixes: contracts.heldFixesSchema,
  Sighting: contracts.sightingSchema,
  Splashes: contracts.splashesSchema,
  Ruling: contracts.rulingSchema,
  Protest: contracts.protestSchema,
  Protests: contracts.protestsSchema,
  MarkRule: contracts.markingSchema,
  Standings: contracts.standingsSchema,
  Scorebook: contracts.scorebookSchema,
  BadgeList: z.object({ badges: z.array(contracts.badgeSchema) }),
  Badge: contracts.badgeSchema,
  NewBadge: contracts.newBadgeSchema,
  EntryLinks: z.object({ links: z.array(contracts.entryLinkSchema) }),
  EntryLink: contracts.entryLinkSchema,
  NewEntryLink: contracts.newEntryLinkSchema,
  Invitation: contracts.invitationSchema,
  EntryList: z.object({ entries: z.array(contracts.entrySummarySchema) }),
  Entry: contracts.entrySchema,
  OwnEntry: contracts.ownEntrySchema,
  SavedEntry: contracts.savedEntrySchema,
  EntrySheet: contracts.entrySheetSchema,
  Photograph: contracts.photographSchema,
  Accepted: contracts.acceptedSchema,
  SignIns: contracts.signInsSchema,
  Consents: contracts.consentsSchema,
  Consent: contracts.consentSchema,
  SafetyPlan: contracts.safetyPlanAnswerSchema,
  RangePlan: contracts.rangePlanSchema,
  SafetyFiles: contracts.safetyFilesSchema,
  SafetyFileSummary: contracts.safetyFileSummarySchema,
  SafetyFile: contracts.safetyFileSchema,
  SafetyFileBody: contracts.safetyFileBodySchema,
  Range: contracts.rangeBriefSchema,
  RangeView: contracts.rangeViewSchema,
  RangeTimes: contracts.rangeViewSchema.shape.times,
  Hold: contracts.holdAnswerSchema,
  Tally: contracts.tallySchema,
  Tag: contracts.tagSchema,
  Erased: contracts.erasedSchema,
  Rehearsal: contracts.rehearsalSchema,
  LiveChange: contracts.liveChangeSchema,
  ImportPreview: contracts.importPreviewSchema,
  ImportAnswer: contracts.importAnswerSchema,
  SiteFile: z.string(),
  ScorebookFile: z.string(),
  Document: z.looseObject({ openapi: z.string() }),
} as const;

export interface RouteInfo {
  method: "get" | "post" | "put" | "patch";
  /** Below /api/v1. */
  path: string;
  summary: string;
  description?: string;
  /** The line of the role table; open to all without one. */
  who?: Act;
  /** What comes as Authorization: Bearer, for those who have no badge. */
  bearer?: string;
  body?: keyof typeof REQUESTS;
  /** application/json without one. */
  bodyType?: string;
  query?: z.ZodObject;
  answer: keyof typeof ANSWERS;
  /** 200 without one. */
  status?: 200 | 201;
  /** application/json without one. */
  mediaType?: string;
  /** Changes nothing, so it needs no key though it is no GET. */
  keyless?: true;
  /** Whoever accepts text/event-stream gets events `progress`, then `answer` or `problem`. */
  tellsProgress?: true;
  /** Refusals beyond those that every such route has. */
  refusals?: Record<number, string>;
}

export const TAKEN = { 409: "Another one has this name or number." };
export const CONTEST = "/contests/{contest}";
