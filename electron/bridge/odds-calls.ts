import { z } from 'zod';
import { sheetSchema } from '../../db/sheets/schema.ts';
import type { Advised, CheckEffects, CheckPlan, FeatureId, NextCheck, OddsAnswer } from '../../reasoner/index.ts';
import { id, longCall } from './call.ts';

const share = z.number().min(0).max(1);
const assumptions = z.strictObject({ stranger: share, swapped: share, unlisted: share, misfit: share, slip: share }).exactOptional();

/** What is likely, and what to look at next. `assumptions` are those of the shop where it has its own. */
export const oddsCalls = {
  /** The odds, and how the first of the checks is taken; that is null where no check tells anything. What it would do is asked for by `odds.check`. */
  'odds.of': longCall(z.strictObject({ sheet: sheetSchema, assumptions })).returns<{
    readonly odds: OddsAnswer;
    readonly next: NextCheck | null;
  }>(),
  /** What to do next and what it would settle, or that one may stop: verdicts are asked for, so it is a call of its own. Null where the sheet contradicts itself. */
  'odds.advice': longCall(z.strictObject({ sheet: sheetSchema, assumptions })).returns<Advised | null>(),
  /** What any one check would do to the verdict; null where it is not among those still to be made. */
  'odds.check': longCall(z.strictObject({ sheet: sheetSchema, assumptions, feature: id<FeatureId>() })).returns<CheckEffects | null>(),
  /** A course of checks to the end; null where the sheet contradicts itself. */
  'odds.plan': longCall(z.strictObject({ sheet: sheetSchema, assumptions })).returns<CheckPlan | null>(),
} as const;
