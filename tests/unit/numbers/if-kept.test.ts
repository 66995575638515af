import { describe, expect, test } from 'vitest';
import { answer, compileAtlas, type Observation, planBuild, type Sheet } from '../../../reasoner/index.ts';
import { blades, chose, littleAtlas, measured, saw, sheetOf } from '../reasoner/little-atlas.ts';

const atlas = compileAtlas(littleAtlas);
const torn = (sheet: Sheet) => {
  const found = sheet.kind === 'planned' ? planBuild(atlas, sheet) : answer(atlas, sheet);
  if (found.kind !== 'contradiction') throw new Error('two entries contradict each other here');
  return found.contradictions;
};
const without = (sheet: Sheet, aside: readonly Observation[]): Sheet => ({
  ...sheet,
  observations: sheet.observations.filter((one) => !aside.includes(one)),
});
const judged = (sheet: Sheet) => {
  const found = answer(atlas, sheet);
  if (found.kind !== 'verdict') throw new Error('nothing contradicts anything here');
  return found;
};

describe('two entries that disagree, with what each would mean', () => {
  const journal = chose('shaft.bearing', 'journal');

  test('[O6] each is judged with the other set aside: the claim, the honest name, and what is left in the slot', () => {
    const sheet = sheetOf([blades(8), blades(6), journal], { claimed: 'Cod 1' });
    const [pair] = torn(sheet);
    expect(pair?.meanings).toHaveLength(2);
    expect(pair?.meanings?.map(({ sentence }) => sentence)).toEqual([
      'With 8 blades: Quayside Cod 1 is open; the honest name is all parts of Quayside Cod 1, nameplate not yet looked at; one listed part is left for the compressor wheel.',
      'With 6 blades: Quayside Cod 1 is ruled out; no name stands for the whole; one listed part is left for the compressor wheel.',
    ]);
    for (const [kept, other] of [
      [blades(8), blades(6)],
      [blades(6), blades(8)],
    ] as const) {
      const meaning = pair?.meanings?.find(({ observation }) => observation === kept.id);
      const alone = judged(
        without(
          sheet,
          sheet.observations.filter(({ id }) => id === other.id),
        ),
      );
      expect(meaning?.aside).toEqual([other.id]);
      expect(meaning?.claim).toEqual({ name: alone.claim?.name, status: alone.claim?.status });
      expect(meaning?.honest.map(({ name }) => name)).toEqual(alone.honest);
      expect(meaning?.left).toBe(alone.slots.find(({ slot }) => slot === 'wheel')?.candidates.length);
    }
  });

  test('[O6] of several such pairs each is judged with the others’ entries set aside too, and says so', () => {
    const [six, eight, forty, fifty] = [blades(6), blades(8), measured('wheel.tip', 40), measured('wheel.tip', 50)] as const;
    const sheet = sheetOf([eight, forty, six, fifty, journal], { claimed: 'Cod 1' });
    const pairs = torn(sheet);
    expect(pairs.map(({ observations }) => observations)).toEqual([
      [eight.id, six.id],
      [forty.id, fifty.id],
    ]);
    const kept = (one: Observation) => pairs.flatMap(({ meanings }) => meanings ?? []).find(({ observation }) => observation === one.id);
    expect(kept(eight)?.aside).toEqual([forty.id, six.id, fifty.id]);
    expect(kept(fifty)?.aside).toEqual([eight.id, forty.id, six.id]);
    expect(kept(eight)?.sentence).toBe(
      'With 8 blades, and every other entry that disagrees set aside: Quayside Cod 1 is open; the honest name is all parts of Quayside Cod 1, nameplate not yet looked at; one listed part is left for the compressor wheel.',
    );
    const alone = judged(without(sheet, [eight, forty, six]));
    expect(kept(fifty)?.left).toBe(alone.slots.find(({ slot }) => slot === 'wheel')?.candidates.length);
    expect(kept(fifty)?.claim?.status).toBe(alone.claim?.status);
  });

  test('[O6] one entry at odds with two others is judged without both', () => {
    const sheet = sheetOf([blades(6), blades(7), blades(8)]);
    const pairs = torn(sheet);
    expect(pairs).toHaveLength(3);
    expect(pairs[0]?.meanings?.[0].sentence).toMatch(/^With 6 blades, and every other entry that disagrees set aside: /);
    for (const { meanings } of pairs)
      for (const { observation, aside } of meanings ?? [])
        expect([observation, ...aside].sort()).toEqual(sheet.observations.map(({ id }) => id).sort());
  });

  test('[O6] nothing claimed, nothing said of a claim; what is only told is not set aside', () => {
    const told = saw('wheel.blades', { kind: 'count', from: 9, to: 9 }, { kind: 'told' });
    const [pair] = torn(sheetOf([blades(8), told, blades(12)]));
    expect(pair?.meanings?.map(({ aside }) => aside)).toEqual([[blades(12).id], [blades(8).id]]);
    expect(pair?.meanings?.map(({ claim }) => claim)).toEqual([null, null]);
    expect(pair?.meanings?.[1]?.sentence).toBe(
      'With 12 blades: no name stands for the whole; no listed part is left for the compressor wheel.',
    );
  });

  test('[O6] a claim the atlas does not list is judged too', () => {
    const [pair] = torn(sheetOf([blades(8), blades(6)], { claimed: 'Cod 3' }));
    expect(pair?.meanings?.map(({ claim }) => claim)).toEqual([
      { name: null, status: 'ruled out' },
      { name: null, status: 'open' },
    ]);
    expect(pair?.meanings?.[1]?.sentence).toMatch(/^With 6 blades: “Cod 3” is open; /);
  });

  test('[O6] of a build on paper it is said whether it goes together', () => {
    const sheet = sheetOf([measured('wheel.tip', 40), measured('wheel.tip', 50)], {
      kind: 'planned',
      chosen: { wheel: 'wheel/cod', housing: 'housing/cod' } as unknown as Sheet['chosen'],
    });
    const [pair] = torn(sheet);
    expect(pair?.meanings?.map(({ fit, left }) => [fit, left])).toEqual([
      ['drops in', null],
      ['will not fit', null],
    ]);
    expect(pair?.meanings?.map(({ sentence }) => sentence)).toEqual([
      'With a tip of 40 mm (±0.04): what is chosen drops in; no name stands for the whole.',
      'With a tip of 50 mm (±0.04): what is chosen will not fit; no name stands for the whole.',
    ]);
  });

  test('[O6] so many pairs that judging each would keep the counter waiting are named without it', () => {
    const many = (length: number) => torn(sheetOf(Array.from({ length }, (_, i) => blades(i + 1))));
    expect(many(12)).toHaveLength(66);
    expect(many(12).every(({ meanings }) => meanings?.length === 2)).toBe(true);
    expect(many(13)).toHaveLength(78);
    expect(many(13).every(({ meanings }) => meanings === null)).toBe(true);
  });
});
