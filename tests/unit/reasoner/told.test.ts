import { describe, expect, test } from 'vitest';
import { answer, compileAtlas, type Finding, type Observation } from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, marked, measured, promising, saw, sheetOf } from './little-atlas.ts';
import { seen, yard } from './yard-atlas.ts';

const little = compileAtlas(littleAtlas);
const told = (observation: Observation): Observation => ({
  ...observation,
  id: `${observation.id}?` as Observation['id'],
  sure: { kind: 'told' },
});
const findingsOf = (observations: readonly Observation[], atlas = little): readonly Finding[] => {
  const found = answer(atlas, sheetOf(observations));
  if (found.kind !== 'verdict') throw new Error('nothing here contradicts itself');
  return found.findings;
};
/** Of each told entry what was found: so, not so, or among those nothing is known of. */
const truths = (...asked: Parameters<typeof findingsOf>) =>
  findingsOf(...asked).flatMap((finding): (readonly string[])[] =>
    finding.kind === 'told claim' ? [[finding.observation, finding.truth]] : finding.kind === 'not confirmed' ? [finding.observations] : [],
  );

describe('what was told, held against what was seen (O1)', () => {
  const journal = told(chose('shaft.bearing', 'journal'));
  const six = told(blades(6));

  test('[O1] first against an entry of the same feature', () => {
    expect(truths([blades(6), six])).toEqual([[six.id, 'holds']]);
    expect(truths([blades(8), six])).toEqual([[six.id, 'fails']]);
    const [eight, nine] = [blades(8), saw('wheel.blades', { kind: 'count', from: 8, to: 9 })];
    const either = told(saw('wheel.blades', { kind: 'count', from: 9, to: 10 }));
    // Told is nine or ten: one entry leaves room for it, and the other does not.
    expect(truths([eight, nine, either])).toEqual([[either.id, 'fails']]);
  });

  test('[O1] else against what is left: so where every part is so, not so where none can be, and not known between', () => {
    expect(truths([blades(8), journal])).toEqual([[journal.id, 'holds']]);
    const cartridge = told(chose('shaft.bearing', 'cartridge'));
    expect(truths([blades(8), cartridge])).toEqual([[cartridge.id, 'fails']]);
    // The wheel of eight blades leaves two housings, of which one may bear QUAY AIR.
    const name = told(marked('housing.cast-name', 'QUAY AIR'));
    expect(truths([blades(8), name])).toEqual([[name.id]]);
    // Of the nameless shaft nobody knows the bearing.
    expect(truths([chose('shaft.end', '7'), cartridge])).toEqual([[cartridge.id]]);
    expect(truths([chose('shaft.end', '7'), journal])).toEqual([[journal.id]]);
  });

  test('[O1] nothing is known of a slot nothing has narrowed, nor of a doubtful one', () => {
    expect(truths([journal])).toEqual([[journal.id]]);
    const doubtful = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a', shaft: 'x' }, 'Cod 2': { wheel: 'b', shaft: 'y' } },
      fits: [{ a: 'wheel', b: 'shaft', pairs: ['ax', 'by'] }],
      without: ['front', 'back', 'elbow', 'plate'],
    });
    const fit = told(chose('shaft.fit-0', 'by'));
    expect(truths([...seen({ shaft: 'y' }), fit], doubtful)).toEqual([[fit.id, 'holds']]);
    expect(truths([...seen({ wheel: 'a', shaft: 'y' }), fit], doubtful)).toEqual([[fit.id]]);
  });

  test('[O1] all of which nothing is known are one finding, beside those that are so or not so', () => {
    const weld = told(chose('shaft.weld', 'beam'));
    const found = findingsOf([blades(8), weld, six, told(marked('plate.trade-name', 'Quayside'))]);
    expect(found.map(({ kind }) => kind)).toEqual(['told claim', 'not confirmed']);
    expect(found[1]).toMatchObject({ observations: [weld.id, told(marked('plate.trade-name', 'Quayside')).id] });
    expect(findingsOf([blades(8)])).toEqual([]);
  });
});

describe('what a claimed name promises (A4, N6)', () => {
  const promises = (atlas: ReturnType<typeof promising>, claimed: string, ...observations: Observation[]) => {
    const found = answer(atlas, sheetOf(observations, { claimed }));
    return found.kind === 'verdict' ? found.claim?.reading.tokens.map((each) => each.promises.map(({ truth }) => truth)) : null;
  };

  test('[A4] a count by a table, and nothing where the table lacks the text', () => {
    const atlas = promising('fish', { kind: 'count', feature: 'wheel.blades', of: { Cod: 8 } });
    expect(promises(atlas, 'Cod 4', blades(8))?.[0]).toEqual(['holds']);
    expect(promises(atlas, 'Cod 4', blades(7))?.[0]).toEqual(['fails']);
    expect(promises(atlas, 'Ling 4 Cartridge', blades(7))?.[0]).toEqual([]);
  });

  test('[A4] a choice by a table, any of several; a token without a number promises no number', () => {
    const either = promising('bearing', { kind: 'choice', feature: 'shaft.bearing', of: { Cartridge: ['cartridge', 'journal'] } });
    expect(promises(either, 'Cod 4 Cartridge', chose('shaft.bearing', 'journal'))?.[2]).toEqual(['holds']);
    const none = promising('bearing', { kind: 'choice', feature: 'shaft.bearing', of: {} });
    expect(promises(none, 'Cod 4 Cartridge', chose('shaft.bearing', 'journal'))?.[2]).toEqual([]);
    const number = promising('fish', { kind: 'number', feature: 'wheel.tip', within: 1 });
    expect(promises(number, 'Cod 4', measured('wheel.tip', 44))?.[0]).toEqual([]);
  });
});
