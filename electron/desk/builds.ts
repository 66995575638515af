import type { Store } from '../../db/index.ts';
import {
  type BuildConstraints,
  buildSheetOf,
  type CompiledAtlas,
  type CompletedBuild,
  compareBuilds,
  compareModels,
  completions,
  type PartId,
  type Plan,
  planBuild,
  type Rates,
  type Sheet,
  slotOptions,
} from '../../reasoner/index.ts';
import type { Reply, Trouble } from '../bridge/contract.ts';
import type { Calls } from '../bridge/desk.ts';
import { refusal, well } from '../bridge/reply.ts';
import { Completions } from './completions.ts';
import { faultOfConstraints } from './constraints.ts';
import type { KeptAtlas } from './kept-atlas.ts';
import { shopRates } from './shop-rates.ts';

type PricedStore = Pick<Store, 'settings' | 'prices'>;

const ratesSaid = (rates: Rates | undefined): { readonly rates?: Rates } => (rates === undefined ? {} : { rates });

type Failed = { readonly ok: false; readonly trouble: Trouble };

/** Builds on paper: planned, completed and printed. The sheet is held against the atlas first, as for a verdict. */
export const buildCalls = (kept: KeptAtlas, store: PricedStore, searches: Completions = new Completions()): Calls<'build'> => ({
  'build.plan': async ({ sheet, stock }) => {
    const held = await kept.holding(sheet);
    if (!held.ok) return held;
    const rates = await shopRates(store, held.value.atlas);
    return rates.ok ? well(planBuild(held.value.atlas, held.value.sheet, { stock, ...ratesSaid(rates.value) })) : rates;
  },
  'build.options': async ({ sheet, slot }) => {
    const held = await kept.holding(sheet);
    if (!held.ok) return held;
    const { atlas } = held.value;
    const rates = await shopRates(store, atlas);
    if (!rates.ok) return rates;
    return atlas.slotNumber.has(slot)
      ? well(slotOptions(atlas, held.value.sheet, slot, ratesSaid(rates.value)))
      : refusal('not-found', 'slot', `“${slot}” is no slot of the atlas.`);
  },
  'build.sheet': async ({ sheet, stock }) => {
    const planned = await planOf(kept, store, sheet, stock);
    return planned.ok ? well(buildSheetOf(planned.value.atlas, planned.value.sheet, planned.value.plan)) : planned;
  },
  'build.complete': async ({ sheet, constraints, limit }): Promise<Reply<'build.complete'>> => {
    const planned = await planOf(kept, store, sheet, []);
    if (!planned.ok) return planned;
    const { atlas, rates } = planned.value;
    const fault = faultOfConstraints(atlas, planned.value.sheet, constraints as BuildConstraints);
    if (fault !== null) return fault;
    return well({
      token: searches.start(completions(atlas, planned.value.sheet, { ...ratesSaid(rates), ...constraints }, { limit, stride: 200 })),
    });
  },
  'build.progress': async ({ token }) => {
    const state = searches.stateOf(token);
    return state === null ? noSearch : well(state);
  },
  'build.cancel': async ({ token }) => (searches.cancel(token) ? well(null) : noSearch),
});

const noSearch = refusal(
  'not-found',
  'token',
  'No such search is under way; it was begun before Kinplate was last started, or dropped since. Begin it again.',
);

interface Planned {
  readonly atlas: CompiledAtlas;
  /** What it was reckoned by, where that is the shop's own. */
  readonly rates: Rates | undefined;
  readonly sheet: Sheet;
  readonly plan: Plan;
}

/** The plan of a sheet, or why there is none. */
const planOf = async (
  kept: KeptAtlas,
  store: PricedStore,
  sheet: Sheet,
  stock: readonly PartId[],
  works?: CompletedBuild['works'],
): Promise<{ readonly ok: true; readonly value: Planned } | Failed> => {
  const held = await kept.holding(sheet);
  if (!held.ok) return held;
  const rates = await shopRates(store, held.value.atlas);
  if (!rates.ok) return rates;
  const plan = planBuild(held.value.atlas, held.value.sheet, {
    stock,
    ...ratesSaid(rates.value),
    ...(works === undefined ? {} : { works }),
  });
  return plan.kind === 'plan'
    ? { ok: true, value: { ...held.value, plan, rates: rates.value } }
    : refusal('contradiction', null, 'Observations contradict each other; nothing is planned until they are settled.');
};

/** Of several, the one that is meant is said. */
const ofBuild = ({ title }: Sheet, failed: Failed): Failed =>
  title === '' ? failed : { ...failed, trouble: { ...failed.trouble, sentence: `“${title}”: ${failed.trouble.sentence}` } };

/** Things side by side, differences first. */
export const compareCalls = (kept: KeptAtlas, store: PricedStore): Calls<'compare'> => ({
  'compare.builds': async ({ builds, stock }) => {
    const planned: Planned[] = [];
    for (const { sheet, works } of builds) {
      const each = await planOf(kept, store, sheet, stock ?? [], works);
      if (!each.ok) return ofBuild(sheet, each);
      planned.push(each.value);
    }
    const [first] = planned;
    if (first === undefined) throw new Error('the contract lets no fewer than two through');
    return well(compareBuilds(first.atlas, planned, { stockKnown: stock !== null }));
  },
  'compare.models': async ({ a, b }) => {
    const atlas = await kept.now();
    const missing = [a, b].find((model) => !atlas.models.has(model));
    return missing === undefined ? well(compareModels(atlas, a, b)) : refusal('not-found', missing, `The atlas has no model “${missing}”.`);
  },
});
