import { expect, test } from 'vitest';
import type { CheckOutcome, Feature, NameAnswer, Verdict } from '../../../reasoner/index.ts';
import { whatStands } from '../../../reasoner/report/what-stands.ts';
import { settlesSentence } from '../../../reasoner/words/settles-sentence.ts';

const blades = { id: 'blades', name: 'blade count', kind: 'count', unit: 'blades' } as unknown as Feature;
const outcome = (count: number, open: number, chance: number): CheckOutcome =>
  ({
    readings: [{ seen: { kind: 'count', from: count, to: count } }],
    honest: [],
    reopens: [],
    open,
    chance,
    claim: null,
  }) as unknown as CheckOutcome;
const settles = (now: number, ...left: readonly number[]): string =>
  settlesSentence(
    blades,
    left.map((open, at) => outcome(10 + at, open, 1 - at / 10)),
    { claimed: null, claim: null, honest: [], open: now },
  );

test('[K2] in one sentence every count is a word, or every one a figure', () => {
  expect(settles(12, 11, 4)).toBe('If there are 10 blades, eleven of the twelve open names are left; if 11 blades, four are left.');
  expect(settles(15, 12, 4)).toBe('If there are 10 blades, 12 of the 15 open names are left; if 11 blades, 4 are left.');
  expect(settles(13, 1)).toBe('If there are 10 blades, 1 of the 13 open names is left.');
});

test('[K2] a name with a comma in it is closed by one before it stands', () => {
  const stands = (text: string): string | undefined => {
    const name = { name: { id: 'n', rung: 'family', text, models: [] }, text } as unknown as NameAnswer;
    const verdict = {
      honest: ['n'],
      names: [{ ...name, name: { id: 'n', rung: 'family', models: [], text } }],
      claim: null,
      ticket: { may: [] },
      slots: [],
    };
    return whatStands({} as never, verdict as unknown as Verdict)[0]?.text.split(' in every')[0];
  };
  expect(stands('core after the Ling family, size not settled')).toBe('Core after the Ling family, size not settled, stands:');
  expect(stands('Quayside Ling 3')).toBe('Quayside Ling 3 stands:');
});
