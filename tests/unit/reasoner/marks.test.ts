import { describe, expect, it } from 'vitest';
import { answer, compileAtlas, type Part } from '../../../reasoner/index.ts';
import { blades, letters, littleAtlas, marked, sheetOf } from './little-atlas.ts';

/** The nameless wheel of Back Lane, of seven blades, is known without letters. Others bear the shop's letters “K7”. */
const bearing = (...bearers: readonly { readonly id: string; readonly maker: string | null }[]) => {
  const lane = littleAtlas.parts.find(({ id }) => String(id) === 'wheel/lane') as Part;
  const more = bearers.map(
    ({ id, maker }) =>
      ({
        ...lane,
        id: `wheel/${id}`,
        name: id,
        maker,
        numbers: [],
        facts: { ...lane.facts, 'wheel.blades': { kind: 'count', from: 9, to: 9 }, 'wheel.cast-mark': letters('K7') },
      }) as unknown as Part,
  );
  // The bearers stand first, as parts of an earlier pack do.
  return compileAtlas({ ...littleAtlas, parts: [...more, ...littleAtlas.parts] });
};
const copy = { id: 'copy-with-letters', maker: null };
const original = { id: 'original-with-letters', maker: 'quayside' };

/** What the letters “K7” on a wheel that but for them would be Back Lane's come to. */
const reading = (atlas: ReturnType<typeof bearing>) => {
  const found = answer(atlas, sheetOf([blades(7), marked('wheel.cast-mark', 'K7')]));
  if (found.kind !== 'verdict') throw new Error('the sheet contradicts itself');
  const mark = found.findings.find(({ kind }) => kind === 'mark');
  return mark?.kind === 'mark' ? mark.reading : null;
};

describe('letters on a part that is known without them (O4)', () => {
  it('[O4] letters that some part of a maker bears in that place are its maker’s, whatever copies bear them too', () => {
    expect(reading(bearing(original))).toBe('maker’s name on a pattern part');
    expect(reading(bearing(original, copy))).toBe('maker’s name on a pattern part');
    expect(reading(bearing(copy, original)), 'the copy is met first').toBe('maker’s name on a pattern part');
  });

  it('[O4] letters that only pattern parts bear are nobody’s name', () => {
    expect(reading(bearing(copy))).toBe('other letters');
    expect(reading(bearing())).toBe('other letters');
  });
});
