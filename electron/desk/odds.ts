import {
  type Assumptions,
  adviceOf,
  type CompiledAtlas,
  checkEffects,
  nextCheck,
  oddsOf,
  planChecks,
  type Sheet,
  startingAssumptions,
} from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** What is likely, and what to look at next, for a sheet as it stands in the window. */
export const oddsCalls = (kept: KeptAtlas): Calls<'odds'> => {
  const asked = asking(kept);
  return {
    'odds.of': (question) =>
      asked(question, (atlas, sheet, assumptions) => {
        const odds = oddsOf(atlas, sheet, assumptions);
        return { odds, next: odds.kind === 'odds' ? nextCheck(atlas, sheet, odds) : null };
      }),
    'odds.advice': (question) => asked(question, adviceOf),
    'odds.check': ({ feature, ...question }) =>
      asked(question, (atlas, sheet, assumptions) => checkEffects(atlas, sheet, feature, assumptions)),
    'odds.plan': (question) => asked(question, planChecks),
  };
};

interface Question {
  readonly sheet: Sheet;
  readonly assumptions?: Assumptions;
}

/** The reasoner weighs a sheet once, known by being the same object: a question that says the same as the last one is put with that one's. */
const asking = (kept: KeptAtlas) => {
  let last: { readonly said: string; readonly sheet: Sheet; readonly assumptions: Assumptions } | null = null;
  return async <T>(question: Question, of: (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions) => T) => {
    const held = await kept.holding(question.sheet);
    if (!held.ok) return held;
    const { atlas, sheet } = held.value;
    const { assumptions = startingAssumptions } = question;
    const said = JSON.stringify([sheet, assumptions]);
    if (last?.said !== said) last = { said, sheet, assumptions };
    try {
      return well(of(atlas, last.sheet, last.assumptions));
    } catch (error) {
      // Without slips a sheet can hold what could never be seen.
      if (error instanceof RangeError) return refusal('sheet-invalid', 'assumptions', `${error.message} (found ${assumptions.slip}).`);
      throw error;
    }
  };
};
