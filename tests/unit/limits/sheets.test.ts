import { expect, test } from 'vitest';
import type { Sheet, SheetId, SlotId } from '../../../reasoner/index.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../db/sheets/check-sheet.ts'));

const atlas = { slot: () => ({ name: 'nameplate' }), feature: () => undefined, part: () => undefined, maker: () => undefined };
const sheet = (absent: readonly string[]): Sheet => ({
  id: 's' as SheetId,
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: absent as readonly SlotId[],
  chosen: {},
});

test.each<[string, (n: number) => string]>([
  ['each another', (n) => `slot-${n}`],
  ['all one', () => 'nameplate'],
])('[R6] a sheet with twice the empty slots, %s, takes at most 2.3 times the work', (_, slot) => {
  const of = (many: number) =>
    work(({ faultsOfSheet }) => void faultsOfSheet(sheet(Array.from({ length: many }, (_none, n) => slot(n))), atlas));
  expect(of(1000)).toBeGreaterThan(1000);
  expect(growthOf(of, 1000)).toBeLessThan(mostGrowth);
});
