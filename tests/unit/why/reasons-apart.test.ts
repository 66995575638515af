import { expect, test } from 'vitest';
import type { Conflict, Conflicts, Member } from '../../../reasoner/index.ts';
import { reasonsApart } from '../../../reasoner/plain/reasons-apart.ts';

const seen = (observation: string) => ({ kind: 'observation', observation }) as unknown as Member;
const absent = (slot: string) => ({ kind: 'absent', slot }) as unknown as Member;
const rule = (slot: string) => ({ kind: 'rule', slot }) as unknown as Member;
const reason = (...members: readonly Member[]) => ({ members }) as unknown as Conflict;
const counted = (count: number, ...found: readonly Conflict[]): Pick<Conflicts, 'found' | 'independent'> => ({
  found,
  independent: { count, exact: true },
});

test('[K1] the reasons shown before the rest is unfolded are the ones that are counted: in their order, no entry in two of them', () => {
  const found = [reason(seen('a'), rule('s')), reason(seen('a'), seen('b')), reason(seen('b'), rule('s')), reason(seen('c'))];
  expect(reasonsApart(counted(3, ...found))).toEqual([0, 2, 3]);
});

test('[K1] all absences are one entry, and reasons that rest on no entry share one', () => {
  const found = [reason(absent('s')), reason(absent('t')), reason(rule('s')), reason(rule('t'))];
  expect(reasonsApart(counted(2, ...found))).toEqual([0, 2]);
});

test('[K1] where taking the most telling first finds fewer than are counted, none is said to be one of them', () => {
  const found = [reason(seen('a'), seen('b')), reason(seen('a'), seen('c')), reason(seen('b'), seen('d'))];
  expect(reasonsApart(counted(2, ...found))).toEqual([]);
});
