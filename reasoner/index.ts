export { type Assumptions, startingAssumptions } from './answer/assumptions.ts';
export type { NumberSoFar, PartSoFar, PieceSoFar, ReadSoFar } from './answer/number-so-far.ts';
export type {
  Advice,
  Check,
  CheckEffects,
  CheckOutcome,
  CheckPlan,
  Doubt,
  IfRight,
  IfWrong,
  NextCheck,
  Odds,
  OddsAnswer,
  PlanCheck,
  PlanEnd,
  SlotOdds,
} from './answer/odds.ts';
export { accusesPlate, type PlateDisagreement } from './answer/plate-reading.ts';
export {
  type Answer,
  type BriefVerdict,
  type ClaimAnswer,
  type ClaimRead,
  type Clause,
  type Conflict,
  type Conflicts,
  type Contradicted,
  type Finding,
  type HousingOrigin,
  type Independent,
  type Member,
  type Name,
  type NameAnswer,
  type Reading,
  type Reason,
  type ReplacementFit,
  type ReplacementNeed,
  type Replacements,
  type Rung,
  rungs,
  type SlotAnswer,
  type SlotCounts,
  type Status,
  type SwapSet,
  type SwapSets,
  type Verdict,
} from './answer/verdict.ts';
export type { Cell, CheckScope } from './apart/cells.ts';
export { type Proof, proofThatNone } from './apart/proof.ts';
export { smallestSets } from './apart/smallest-sets.ts';
export type { SubjectRef } from './apart/subject.ts';
export {
  type Apart,
  type ApartRow,
  type ApartSet,
  type ApartTrouble,
  fewestSubjects,
  mostSubjects,
  type PartFacts,
  tellApart,
} from './apart/tell-apart.ts';
export type {
  Atlas,
  BestShown,
  Fact,
  Family,
  Feature,
  FeatureKind,
  Generation,
  Grammar,
  GrammarDemand,
  GrammarToken,
  Instrument,
  Joint,
  Maker,
  Metal,
  Model,
  Part,
  Port,
  Rates,
  Role,
  Slot,
  Source,
  Stage,
  TokenPromise,
  TradeTerm,
  Warmth,
} from './atlas/atlas.ts';
export type { Chain, ChainId } from './atlas/chain.ts';
export type { DrawingKind, DrawingRoles, SlotDrawing, SlotDrawingOf } from './atlas/drawing.ts';
export type { CheckDigit, NumberPattern, NumberPiece } from './atlas/number-pattern.ts';
export type { Cut, Doing, Operation, OperationId } from './atlas/operation.ts';
export type { FitRule } from './atlas/rule.ts';
export { type BuildSheet, type BuildSheetPart, buildSheetOf, buildSheetText, type MachiningSheet } from './builds/build-sheet.ts';
export { refusalPhrase } from './builds/build-words.ts';
export {
  type BuildsCell,
  type BuildsGroup,
  type BuildsRow,
  type ComparedBuilds,
  type ComparedWork,
  compareBuilds,
  type PlannedSheet,
} from './builds/compare-builds.ts';
export { type Compared, type ComparedRow, compareModels } from './builds/compare-models.ts';
export { completeBuild, completions } from './builds/complete-build.ts';
export type { BuildConstraints, CompletedBuild, Completion, CompletionProgress } from './builds/completion.ts';
export { partFits } from './builds/part-fits.ts';
export type { BuildClause, BuildCost, BuildReason, JointPlan, Plan, PlanAnswer, PlannedWork, SlotMark } from './builds/plan.ts';
export { planBuild } from './builds/plan-build.ts';
export { findName } from './builds/planned-unit.ts';
export { type SlotOption, type SlotOptions, slotOptions } from './builds/slot-options.ts';
export type { Whence } from './builds/whence.ts';
export { type CaseChanges, caseChanges } from './cases/case-changes.ts';
export type { CaseVerdict, KeptName } from './cases/case-verdict.ts';
export { judgeCase } from './cases/judge-case.ts';
export {
  type KeptCase,
  type Retold,
  type RetoldCase,
  type RetoldList,
  type RetoldProgress,
  retold,
  retoldAll,
  retoldWeights,
  type SavedCase,
  type Told,
  toldOf,
} from './cases/retold.ts';
export { appliedChanges } from './cases/sheet-changes.ts';
export { type CasesWould, type CaseToJudge, type CaseWould, casesWould, type HoldSheet } from './changes/cases-would.ts';
export {
  type DemandChange,
  type MeetingChange,
  type NameChange,
  type WouldChange,
  wouldChange,
} from './changes/would-change.ts';
export { compileAtlas, fitOf, recompileAtlas } from './compile/compile.ts';
export type { CompiledAtlas } from './compile/compiled.ts';
export { partnersOf } from './compile/partners.ts';
export { seedOf } from './drills/draw.ts';
export {
  type Drill,
  type DrillKind,
  type DrillLevel,
  drillKinds,
  drillLevels,
  type Judgement,
  type LinePlace,
  type Response,
  type ShownSlot,
  type Subject,
  type Topic,
  type TopicId,
} from './drills/drill.ts';
export { drillOf, faultIn, judgeDrill } from './drills/make-drill.ts';
export { asGoodAs } from './drills/next-check.ts';
export { type QuestionSheet, questionSheetOf } from './drills/question-sheet.ts';
export { questionSheetText } from './drills/question-sheet-text.ts';
export { type Scope, topicOf, topicsOf } from './drills/topics.ts';
export { chordOf, roomBetweenCircles } from './fits/bolt-circle.ts';
export { judgeChain } from './fits/chain.ts';
export { featuresOf } from './fits/features-of.ts';
export type { Fit, FitPoint, FitVerdict, PointKind, Span } from './fits/fit.ts';
export { fitsEdition } from './fits/fits-edition.ts';
export { expandCode } from './fits/iso286.ts';
export { judgeJoint } from './fits/judge-joint.ts';
export { judgeRule } from './fits/judge-rule.ts';
export type { Known } from './fits/known.ts';
export { materials } from './fits/materials.ts';
export { readThread, type Thread, threadsMeet } from './fits/threads.ts';
export { expansionOf, growthOf, warmClearance } from './fits/warm.ts';
export { fitCautions } from './fits/work/cautions.ts';
export { planWork } from './fits/work/plan-work.ts';
export type { FinishedSize, Work, WorkedFit } from './fits/work/work.ts';
export { faultOfListedName } from './grammar/listed-name.ts';
export { readBy, readName, readNames } from './grammar/read-name.ts';
export {
  asId,
  type DrawingId,
  type FamilyId,
  type FeatureId,
  type GenerationId,
  type GrammarTokenId,
  type Id,
  type InstrumentId,
  type JointId,
  type MakerId,
  type MetalId,
  type ModelId,
  type NameId,
  type ObservationId,
  type PartId,
  type PortId,
  type RatesId,
  type SheetId,
  type SlotId,
  type SourceId,
  type StageId,
  type TermId,
  type WarmthId,
} from './ids.ts';
export { type BuiltKey, buildKey, type KeyNode, stepsAt, usualEffort } from './key/build-key.ts';
export { type Key, type KeyPlace, type KeyWay, keyOf } from './key/key-of.ts';
export { lowerBound } from './key/lower-bound.ts';
export type { Answer as KeyAnswer } from './key/outcomes.ts';
export type { KeyProblem } from './key/problem.ts';
export { type KeyAsked, problemOf } from './key/problem-of.ts';
export type { Becomes, Find, Listing } from './listing/listing.ts';
export { readListing } from './listing/read-listing.ts';
export { judgeListings, plainestFirst } from './listings/judge-listings.ts';
export { offerJudge } from './listings/judge-offers.ts';
export {
  type Beside,
  type Listings,
  type ListingsItem,
  type ListingsProgress,
  type ListingsRow,
  type Offer,
  type Standing,
  standings,
} from './listings/listings.ts';
export { type Advised, adviceOf } from './odds/advice.ts';
export { checkEffects } from './odds/check-effects.ts';
export { entropyOf } from './odds/entropy.ts';
export { nextCheck, oddsOf } from './odds/odds-of.ts';
export { type PlanLimits, planChecks } from './odds/plan-checks.ts';
export { mayStop, type Stopping } from './odds/stopping.ts';
export { blankSheet } from './plain/blank-sheet.ts';
export type { Progress, Pulse } from './plain/pulse.ts';
export { numberSoFar } from './plate/number-so-far.ts';
export { checkDigit, readNumber } from './plate/read-number.ts';
export { type PlateHolder, readPlate } from './plate/read-plate.ts';
export type { CaseFacts } from './report/case-facts.ts';
export type { GraphPicture, Shape } from './report/graph-picture.ts';
export {
  linesOf,
  type Report,
  type ReportBlock,
  type ReportLine,
  type ReportPhotograph,
  type ReportReason,
  type ReportSection,
  type ReportSectionId,
} from './report/report.ts';
export { reportOf } from './report/report-of.ts';
export { type FactOfSamples, factOfSamples } from './samples/fact-of-samples.ts';
export { type NoFact, type PartFromEntries, type PartNamed, partFromEntries, samplesIn } from './samples/part-from-entries.ts';
export type { FeatureSamples, MeasureStatistics, Sample, Specimen, Tally } from './samples/sample.ts';
export { statisticsOf } from './samples/statistics.ts';
export type { Observation, Seen, Sheet, Sure, Unseen } from './sheet/sheet.ts';
export type { LikelySlip, Slip } from './sheet/slip.ts';
export { numberSlipOf } from './slips/number-slip.ts';
export { slipOf } from './slips/slips.ts';
export type { Truth } from './truth.ts';
export { type AnswerOptions, answer, answerInBrief, explain, type InBrief } from './verdict/answer.ts';
export { reasonKinds } from './why/order-of-reasons.ts';
export { stagesFor } from './why/strip-down.ts';
