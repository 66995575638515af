import { describe, expect, test } from 'vitest';
import { startingAssumptions } from '../../../reasoner/index.ts';
import { assumed, assumedFrom, assumedTogether, percentOf, readPercent } from '../../../renderer/odds/assumed.ts';

const of = (key: string) => {
  const found = assumed.find((one) => one.key === key);
  if (found === undefined) throw new Error(`no assumption ${key}`);
  return found;
};

describe('what the odds take for granted', () => {
  test('[Q1] every assumption of the reasoner can be changed, and its starting figure lies within the bounds', () => {
    expect(assumed.map(({ key }) => key).sort()).toEqual(Object.keys(startingAssumptions).sort());
    for (const each of assumed) expect(readPercent(percentOf(startingAssumptions[each.key]), each)).toMatchObject({ ok: true });
  });

  test('[Q1] a percentage is read with or without its sign, with point or comma', () => {
    for (const typed of ['2.5', '2,5', ' 2.5 %', '2.5%']) expect(readPercent(typed, of('slip'))).toEqual({ ok: true, value: 0.025 });
  });

  test('[T1] what is no percentage within the bounds is refused with what was found and what is wanted', () => {
    expect(readPercent('0', of('slip'))).toEqual({ ok: false, sentence: '“0” was given; 0.1 to 20 percent is wanted.' });
    expect(readPercent('sixty', of('swapped'))).toEqual({ ok: false, sentence: '“sixty” was given; 1 to 50 percent is wanted.' });
    expect(readPercent('', of('unlisted'))).toEqual({ ok: false, sentence: 'Nothing was given; 1 to 90 percent is wanted.' });
  });

  test('[H5] figures two windows set are both kept; of one both set, the later; back to the starting figures means all of them', () => {
    const shown = { stranger: 0.05, swapped: 0.1, unlisted: 0.2, misfit: 0.05, slip: 0.02 };
    const there = { ...shown, slip: 0.03 };
    expect(assumedTogether(shown, { ...shown, swapped: 0.2 }, there)).toEqual({ ...shown, swapped: 0.2, slip: 0.03 });
    expect(assumedTogether(shown, { ...shown, slip: 0.01 }, there)).toEqual({ ...shown, slip: 0.01 });
    expect(assumedTogether(shown, { ...shown, slip: 0.01 }, null)).toEqual({ ...shown, slip: 0.01 });
    expect(assumedTogether(shown, null, there)).toBeNull();
  });

  test('[Q1] figures kept by the window come back; what makes no sense is as if nothing had been kept', () => {
    for (const { key, least, greatest } of assumed) {
      for (const percent of [least, greatest]) {
        const own = { ...startingAssumptions, [key]: percent / 100 };
        expect(assumedFrom(JSON.stringify(own))).toEqual(own);
      }
      expect(assumedFrom(JSON.stringify({ ...startingAssumptions, [key]: 1.2 }))).toBeNull();
    }
    // Kept before the window asked about some of them: those start from their starting figures.
    expect(assumedFrom('{"swapped":0.2,"unlisted":0.3,"slip":0.01}')).toEqual({
      ...startingAssumptions,
      swapped: 0.2,
      unlisted: 0.3,
      slip: 0.01,
    });
    for (const kept of [null, '', '{}', '[]', 'null', '{"swapped":"8"}']) expect(assumedFrom(kept)).toBeNull();
  });
});
