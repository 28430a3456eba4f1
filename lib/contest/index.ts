/**
 * What people do with a contest: commands and queries on the database, each checking who may (roles.ts has the table).
 * Pages and route handlers call nothing below this room. A "no" is thrown as a `Refusal`, which carries the words to
 * show. Commands take a `Call` (database, who asks, idempotency key) and a body that they check themselves.
 */

export { addAerialPicture, aerialPictureContent, changeAerialPicture } from "./aerial";
export { changeBadge, renewCode, revokeBadge } from "./badge-changes";
export { endedWords, usualEnd } from "./badge-end";
export { listBadges, makeBadge } from "./badges";
export { changeContest } from "./change-contest";
export { liveFeed } from "./changes";
export { setAir, setPolicy } from "./conditions";
export { addConsent, changeConsent, listConsents } from "./consents";
export { contestOverview, createContest, listContests } from "./contests";
export { machineCures } from "./cures";
export {
  acceptEntry,
  listEntries,
  readEntry,
  refuseEntry,
  returnEntry,
  seeGuardianForm,
} from "./entries";
export {
  changeEntryLink,
  listEntryLinks,
  makeEntryLink,
  newEntryToken,
  readInvitation,
} from "./entry-links";
export { addPhotograph, entryPhotograph, ownPhotograph, removePhotograph } from "./entry-photographs";
export { erasePeople, expirePeople } from "./erase-people";
export { isRefusal, parse, Refusal } from "./errors";
export { importSite, previewImport } from "./exchange";
export { addFeature, allowProtection, changeFeature } from "./features";
export { firingOrder } from "./firing-order";
export { fitMachine } from "./fit";
export { openDispersion, openHazard, openReplay } from "./hazard";
export { decideHeldFix, deliveredByEnded, deliverFix, listHeldFixes } from "./held-fixes";
export {
  addPiece,
  correctReport,
  enterIncident,
  eraseWords,
  listIncidents,
  readIncident,
  replayIncident,
  writeWords,
} from "./incidents";
export { declareMeasured, inspectMachine } from "./inspect";
export { machineContours } from "./landing-contours";
export {
  addDivision,
  addEntrant,
  addFiringPoint,
  changeFiringPoint,
} from "./layout";
export { machineTimes, setMachineTimes } from "./machine-times";
export { changeMachine, declareRevision, enterMachine, machinePage, placeMachine } from "./machines";
export { readMarkRule, setMarkRule } from "./mark-rule";
export { moveTurn } from "./move-turn";
export {
  beginEntry,
  entrySheet,
  readOwnEntry,
  saveOwnEntry,
  sendOwnEntry,
  withdrawEntry,
} from "./own-entry";
export { listClearance, machineClearance, type Permit, type PermitStanding, permitStanding } from "./permits";
export { applyPlacing, machineClearBearings, placingDesk } from "./placing";
export { placingPlan } from "./plan";
export { planOrder } from "./plan-order";
export { proposeOrder } from "./propose-order";
export { listProtests, protest } from "./protests";
export {
  beat,
  callHold,
  enterMachineState,
  eraseNames,
  goCold,
  goHot,
  liftHold,
  nameApproach,
  rangeBriefNow,
  rangeView,
  readTally,
  sayAtPost,
  setTimes,
  tagFromPaper,
  tagIn,
  tagOut,
  tickList,
} from "./range";
export { rangePlanOf } from "./range-plan";
export { addControlPoint, addSpotHeight, changeControlPoint, changeSpotHeight } from "./range-points";
export { recordFix } from "./record-fix";
export { endRehearsal, readRehearsal, startRehearsal } from "./rehearsal";
export { type Act, type Actor, type Asker, MAY, may } from "./roles";
export { type Head, headAt, type RoundHead, roundHeads } from "./round-heads";
export { makeRound } from "./rounds";
export { rule } from "./rulings";
export {
  freezeSafetyFile,
  listSafetyFiles,
  type SafetyFileDraft,
  safetyFile,
  safetyFileDraft,
  safetyFileText,
} from "./safety-file";
export { readSafetyPlan, setSafetyPlan } from "./safety-plan";
export {
  Chain,
  type ChainEntry,
  checkScorebook,
  groupedHash,
  headLine,
  type PrintedHead,
  printedHead,
  verifyScorebook,
} from "./scorebook-chain";
export { scorebookFile, scorebookPage, wholeScorebook } from "./scorebook-page";
export { actorOfToken, endedOfToken, signOut, whoAmI } from "./sessions";
export { ensureSetupCode, needsSetup, setUp } from "./setup";
export { allSheets, machineSheet } from "./sheets";
export { judgeView, roundShots, shotHistory, sightedShots } from "./shots";
export { sightSplash } from "./sight";
export { retireBarrier, signBarrier } from "./sign-barrier";
export { type Session, signIn } from "./sign-in";
export { signInLog } from "./sign-in-log";
export { signPermit, withdrawPermit } from "./sign-permit";
export { type Pegs, pegList, siteFile } from "./site-files";
export { contestStandings } from "./standings";
export { readWind, windOfDay, windReadings } from "./wind";
export type { Call, Reply } from "./write";
export { CAUTION, contestZones } from "./zones";
