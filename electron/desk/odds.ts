import type { Store } from '../../db/index.ts';
import { type Assumptions, checkEffects, oddsOf, planChecks, type Sheet, startingAssumptions } from '../../reasoner/index.ts';
import { trouble, well } from '../bridge/reply.ts';
import type { Calls } from './desk.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** What is likely, and what to look at next, for a sheet as it stands in the window. */
export const oddsCalls = (store: Store, kept: KeptAtlas): Calls<'odds'> => ({
  'odds.of': ({ sheet, assumptions = startingAssumptions }) =>
    asked(store, sheet, assumptions, async (held) => {
      const atlas = await kept.now();
      const odds = oddsOf(atlas, held, assumptions);
      const first = odds.kind === 'odds' ? odds.checks[0] : undefined;
      return { odds, next: first === undefined ? null : checkEffects(atlas, held, first.feature, assumptions) };
    }),
  'odds.check': ({ sheet, feature, assumptions = startingAssumptions }) =>
    asked(store, sheet, assumptions, async (held) => checkEffects(await kept.now(), held, feature, assumptions)),
  'odds.plan': ({ sheet, assumptions = startingAssumptions }) =>
    asked(store, sheet, assumptions, async (held) => planChecks(await kept.now(), held, assumptions)),
});

const asked = async <T>(store: Store, sheet: Sheet, assumptions: Assumptions, of: (held: Sheet) => Promise<T>) => {
  const checked = await store.checkSheet(sheet);
  if (!checked.ok) return checked;
  try {
    return well(await of(checked.value));
  } catch (error) {
    // Without slips a sheet can hold what could never be seen.
    if (error instanceof RangeError) return trouble('sheet-invalid', 'assumptions', `${error.message} (found ${assumptions.slip}).`);
    throw error;
  }
};
