import { join } from 'node:path';
import type { ExpandCode } from '../../../db/index.ts';
import { expandCode as expandIso286 } from '../../../reasoner/index.ts';

export const demoPack = join(import.meta.dirname, '../../../seed-data/demo-pack');
export const vocabularyPack = join(import.meta.dirname, '../../../seed-data/vocabulary');

/** The reasoner's own expansion, as the desk hands it to the store. */
export const expandCode: ExpandCode = (nominal, code) => {
  const expanded = expandIso286(nominal, code);
  return expanded.ok ? expanded.value : { error: expanded.sentence };
};

export const smallPack = join(import.meta.dirname, 'fixtures/small-pack');

/** ISO 286-2:2010, table for 80 < D ≤ 120 mm: H7 is 0 to +35 µm (M). The small pack uses this one code only. */
export const expandH7: ExpandCode = (nominal, code) =>
  code === 'H7' && nominal > 80 && nominal <= 120 ? { lower: 0, upper: 0.035 } : { error: `${code} at ${nominal} mm is not in the table` };
