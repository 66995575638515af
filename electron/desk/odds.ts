import {
  type Assumptions,
  type CompiledAtlas,
  checkEffects,
  oddsOf,
  planChecks,
  type Sheet,
  startingAssumptions,
} from '../../reasoner/index.ts';
import { trouble, well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** What is likely, and what to look at next, for a sheet as it stands in the window. */
export const oddsCalls = (kept: KeptAtlas): Calls<'odds'> => ({
  'odds.of': ({ sheet, assumptions = startingAssumptions }) =>
    asked(kept, sheet, assumptions, (atlas, held) => {
      const odds = oddsOf(atlas, held, assumptions);
      const first = odds.kind === 'odds' ? odds.checks[0] : undefined;
      return { odds, next: first === undefined ? null : checkEffects(atlas, held, first.feature, assumptions) };
    }),
  'odds.check': ({ sheet, feature, assumptions = startingAssumptions }) =>
    asked(kept, sheet, assumptions, (atlas, held) => checkEffects(atlas, held, feature, assumptions)),
  'odds.plan': ({ sheet, assumptions = startingAssumptions }) =>
    asked(kept, sheet, assumptions, (atlas, held) => planChecks(atlas, held, assumptions)),
});

const asked = async <T>(kept: KeptAtlas, sheet: Sheet, assumptions: Assumptions, of: (atlas: CompiledAtlas, held: Sheet) => T) => {
  const held = await kept.holding(sheet);
  if (!held.ok) return held;
  try {
    return well(of(held.value.atlas, held.value.sheet));
  } catch (error) {
    // Without slips a sheet can hold what could never be seen.
    if (error instanceof RangeError) return trouble('sheet-invalid', 'assumptions', `${error.message} (found ${assumptions.slip}).`);
    throw error;
  }
};
