import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import {
  type Answer,
  answer,
  asId,
  checkDigit,
  type NumberPattern,
  type NumberPiece,
  type ObservationId,
  readNumber,
  type Sheet,
} from '../../../reasoner/index.ts';
import { demo, demoAtlas, demoPack } from '../../unit/seed/demo-atlas.ts';
import { writeNumber } from './write-number.ts';

const settings = { seed: 20261125, numRuns: 400 } as const;
const patterns = demoAtlas.makers.flatMap(({ numbering = [] }) => numbering);

const figures = (count: number) =>
  fc.array(fc.integer({ min: 0, max: 9 }), { minLength: count, maxLength: count }).map((all) => all.join(''));

/** A text one piece may have; a check digit's is worked out afterwards. */
const textOf = (pattern: NumberPattern, piece: NumberPiece): fc.Arbitrary<string> => {
  switch (piece.kind) {
    case 'fixed':
      return fc.constant(piece.text);
    case 'slot':
      return fc.constantFrom(...Object.keys(piece.codes));
    case 'digits':
      return figures(piece.count);
    case 'letters':
      return fc.array(fc.constantFrom(...piece.among), { minLength: piece.count, maxLength: piece.count }).map((all) => all.join(''));
    case 'year': {
      const year = fc.integer({ min: pattern.from ?? 1950, max: pattern.to ?? 2026 });
      return year.map((each) => (piece.figures === 4 ? String(each) : String(each % 100).padStart(2, '0')));
    }
    case 'year letter':
    case 'month letter':
      return fc.constantFrom(...piece.letters);
    case 'month':
      return fc.integer({ min: 1, max: 12 }).map((month) => String(month).padStart(2, '0'));
    case 'check digit':
      return fc.constant('');
  }
};

/** A number the pattern makes, as the text of its pieces. */
const made = (pattern: NumberPattern): fc.Arbitrary<readonly string[]> =>
  fc.tuple(...pattern.pieces.map((piece) => textOf(pattern, piece))).map((texts) =>
    texts.reduce<string[]>((all, text, i) => {
      const piece = pattern.pieces[i];
      all.push(piece?.kind === 'check digit' ? checkDigit(piece, all.join('')) : text);
      return all;
    }, []),
  );

const anyMade = fc.constantFrom(...patterns).chain((pattern) => made(pattern).map((texts) => ({ pattern, texts })));

describe('the makers’ number patterns', () => {
  test('[O5] what a pattern makes, the reader accepts, piece by piece, with its check digit right', () => {
    fc.assert(
      fc.property(anyMade, ({ pattern, texts }) => {
        const reads = readNumber(pattern, writeNumber(pattern, texts));
        expect(reads.map(({ texts: read }) => read)).toContainEqual(texts);
        expect(reads.some(({ check }) => check === null || check.stamped === check.wanted)).toBe(true);
      }),
      settings,
    );
  });

  test('[O4] spaces, signs and case count for nothing, as with any mark', () => {
    fc.assert(
      fc.property(anyMade, fc.constantFrom('', ' ', '-', '/', ' . '), fc.boolean(), ({ pattern, texts }, between, small) => {
        const text = [...writeNumber(pattern, texts)].join(between);
        const loose = readNumber(pattern, small ? text.toLowerCase() : text);
        expect(loose).toEqual(readNumber(pattern, writeNumber(pattern, texts)));
      }),
      settings,
    );
  });

  test('[O5] one figure read wrong is never taken for right where the check digit’s weight has no factor in common with the modulus', () => {
    const checked = patterns.filter(({ pieces }) => pieces.some((piece) => piece.kind === 'check digit'));
    expect(checked.length).toBeGreaterThan(0);
    const gcd = (a: number, b: number): number => (b === 0 ? a : gcd(b, a % b));
    for (const { pieces } of checked) {
      for (const piece of pieces) {
        if (piece.kind !== 'check digit') continue;
        for (const weight of piece.weights) expect(gcd(weight, piece.modulus)).toBe(1);
      }
    }
    fc.assert(
      fc.property(
        fc.constantFrom(...checked).chain((pattern) => made(pattern).map((texts) => ({ pattern, texts }))),
        fc.nat(),
        fc.integer({ min: 1, max: 9 }),
        ({ pattern, texts }, where, by) => {
          const places = pattern.pieces.flatMap((piece, i) => (piece.kind === 'digits' ? [i] : []));
          const at = places[where % places.length] as number;
          const [first = '', ...rest] = texts[at] as string;
          const wrong = texts.map((text, i) => (i === at ? `${(Number(first) + by) % 10}${rest.join('')}` : text));
          for (const { check } of readNumber(pattern, writeNumber(pattern, wrong))) expect(check?.stamped).not.toBe(check?.wanted);
        },
      ),
      settings,
    );
  });

  test('[O5] every part number of the demo makers is made as its maker makes them, and its code is that of its slot', () => {
    for (const part of demoAtlas.parts) {
      const own = demoAtlas.makers.find(({ id }) => id === part.maker)?.numbering?.filter(({ says }) => says === 'part number') ?? [];
      for (const number of part.numbers) {
        const reads = own.flatMap((pattern) => readNumber(pattern, number));
        expect(reads.length, `${part.id} ${number}`).toBeGreaterThan(0);
        for (const { slot } of reads) if (slot !== null) expect(slot, number).toBe(part.slot);
      }
    }
  });
});

describe('[O5] the plate reader and the statuses', () => {
  const serial = {
    slot: asId<Sheet['observations'][number]['slot']>('nameplate'),
    feature: asId<Sheet['observations'][number]['feature']>('nameplate-serial-text'),
  };
  /** Everything but how often the atlas is silent, which an observation it says nothing of adds to. */
  const statuses = (given: Answer) =>
    given.kind === 'contradiction'
      ? given.kind
      : {
          names: given.names.map(({ name, status, unsettled }) => [name.id, status, unsettled]),
          honest: given.honest,
          open: given.open,
          slots: given.slots.map(({ silent: _, ...slot }) => slot),
          unit: given.unit,
        };

  test('[O5] whatever serial number is entered, no status and no candidate changes: the atlas’s plates do not say it', () => {
    const sheets = demoPack.sheets.filter(({ kind, absent }) => kind === 'found' && !absent.includes(serial.slot));
    fc.assert(
      fc.property(
        fc.constantFrom(...sheets),
        fc.oneof(
          anyMade.map(({ pattern, texts }) => writeNumber(pattern, texts)),
          fc.string({ minLength: 1, maxLength: 14 }).filter((text) => text.trim() !== ''),
        ),
        (sheet, text) => {
          const with_: Sheet = {
            ...sheet,
            observations: [
              ...sheet.observations.filter(({ feature }) => feature !== serial.feature),
              { id: asId<ObservationId>('serial'), ...serial, value: { kind: 'mark', text }, sure: { kind: 'seen' } },
            ],
          };
          const without: Sheet = { ...sheet, observations: sheet.observations.filter(({ feature }) => feature !== serial.feature) };
          expect(statuses(answer(demo, with_, { explain: 'none' }))).toEqual(statuses(answer(demo, without, { explain: 'none' })));
        },
      ),
      { ...settings, numRuns: 60 },
    );
  });
});
