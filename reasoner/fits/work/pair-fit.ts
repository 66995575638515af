import type { FeatureId } from '../../ids.ts';
import type { WorkPlan } from './work.ts';

/** How two parts go together with what the shop can do (F2). */
export type PairFit =
  | { readonly kind: 'drops in' }
  /** Some pairs do: measure both and choose, or do this work, where there is any. */
  | { readonly kind: 'measure and choose'; readonly plan: WorkPlan | null }
  /** The cheapest work whose metal allows it. */
  | { readonly kind: 'after work'; readonly plan: WorkPlan }
  | { readonly kind: 'not known'; readonly missing: readonly FeatureId[] }
  | { readonly kind: 'will not fit' };
