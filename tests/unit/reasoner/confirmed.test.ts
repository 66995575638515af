import { describe, expect, test } from 'vitest';
import { answer, appliedChanges, asId, type Observation, reportOf, type Sheet } from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const odd: Observation = {
  id: asId('odd'),
  slot: asId('compressor-wheel'),
  feature: asId('compressor-wheel-full-blades'),
  value: { kind: 'count', from: 2, to: 2 },
  sure: { kind: 'seen' },
};
const sheetOf = (more: Partial<Observation>): Sheet => ({
  id: asId('confirmed'),
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [{ ...odd, ...more }],
  absent: [],
  chosen: {},
});

describe('[O7] that an entry is what was read says nothing of any part', () => {
  test('[O7] the answer is the same with a confirmation and without', () => {
    expect(answer(demo, sheetOf({ confirmed: true }))).toEqual(answer(demo, sheetOf({})));
    for (const sheet of demoPack.sheets.filter(({ kind }) => kind === 'found').slice(0, 4)) {
      const confirmed = { ...sheet, observations: sheet.observations.map((one) => ({ ...one, confirmed: true as const })) };
      expect(answer(demo, confirmed), sheet.id).toEqual(answer(demo, sheet));
    }
  });

  test('[O7] in the history it is no correction', () => {
    const told = (was: Partial<Observation>, is: Partial<Observation>) =>
      appliedChanges(demo, sheetOf(was), sheetOf(is)).map(({ change }) => change.sentence);
    expect(told({}, { confirmed: true })).toEqual(['Confirmed as it was read: compressor wheel, 2 full blades (seen).']);
    expect(told({ confirmed: true }, { confirmed: true, note: 'cut down' })).toEqual([
      'Noted anew: compressor wheel, 2 full blades (seen).',
    ]);
    expect(told({ confirmed: true }, { value: { kind: 'count', from: 7, to: 7 } })).toEqual([
      'Corrected: compressor wheel, 7 full blades (seen); before, compressor wheel, 2 full blades (seen).',
    ]);
  });

  test('[O7] in the report it stands with the entry', () => {
    const said = (more: Partial<Observation>) => {
      const sheet = sheetOf(more);
      return JSON.stringify(reportOf({ atlas: demo, sheet, answer: answer(demo, sheet), making: { on: '2026-03-04', invented: true } }));
    };
    expect(said({ confirmed: true })).toContain('2 full blades, seen, and confirmed when asked');
    expect(said({})).not.toContain('confirmed when asked');
  });
});
