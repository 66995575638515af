import { describe, expect, test } from 'vitest';
import { asId, type FeatureId, numberSoFar, type Observation, readNumber, type Sheet } from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { demo, demoAtlas } from '../seed/demo-atlas.ts';

const number = asId<FeatureId>('nameplate-number');
const serial = asId<FeatureId>('nameplate-serial-text');
const plate = (tradeName?: string): Sheet => ({
  ...blankSheet(asId('sheet-1')),
  observations:
    tradeName === undefined
      ? []
      : [
          {
            id: asId<Observation['id']>('o1'),
            slot: asId('nameplate'),
            feature: asId('nameplate-trade-name'),
            value: { kind: 'mark', text: tradeName },
            sure: { kind: 'seen' },
          },
        ],
});
const ofPart = (text: string, tradeName?: string) =>
  numberSoFar(demo, text, { says: 'part number', entry: { feature: number, sheet: plate(tradeName) } });
const ofSerial = (text: string, tradeName?: string) =>
  numberSoFar(demo, text, { says: 'serial number', entry: { feature: serial, sheet: plate(tradeName) } });
/** The pieces of the likeliest reading: what is typed of each, what it says or is called, how it stands. */
const pieces = ({ readings: [first] }: ReturnType<typeof ofPart>) =>
  first?.pieces.map(({ text, means, name, state, wanted }) => `${text}: ${means ?? name}, ${state}${wanted === null ? '' : `, ${wanted}`}`);

describe('[O5] a number as it is typed', () => {
  test('[O5] what is typed is read piece by piece, and what is still to come is said', () => {
    expect(ofPart('FL').state).toBe('begun');
    expect(pieces(ofPart('FL'))?.[0]).toBe('FL: of which part, begun, “SAIL”, “OAR”, “KEEL”, “HULL” or 6 more');
    expect(pieces(ofPart('flag 767'))).toEqual([
      'flag: nameplate, read',
      '767: running number, begun, 2 more figures',
      ': issue of the drawing, to come, 1 figure',
    ]);
    expect(ofPart('flag 76736').readings).toHaveLength(1);
    expect(pieces(ofSerial('R 03'))).toEqual([
      'R: always so, read',
      '03: 2003, read',
      ': month, to come, 01 to 12',
      ': running number, to come, 5 figures',
      ': check digit, to come, a figure that follows from those before',
    ]);
  });

  test('[O5] a whole number is of its part, with the models it may sit in and when they were built', () => {
    const read = ofPart('FLAG 76736/1');
    expect(read).toMatchObject({ state: 'whole', mayBeOf: [], parts: [{ slot: 'nameplate', maker: 'merrowby', supersededBy: null }] });
    expect(read.parts[0]?.models.map(({ name, built }) => [name, built])).toEqual([['Petrel 13 Cartridge', { from: 1996, to: 2012 }]]);
    expect(read.readings).toMatchObject([{ maker: 'merrowby', slot: 'nameplate', ofAnother: false }]);
  });

  test('[O5] what took its place is followed to the last', () => {
    for (const part of demoAtlas.parts) {
      const [first] = part.numbers;
      if (first === undefined) continue;
      let last = part;
      for (let next = demoAtlas.parts.find(({ supersedes }) => supersedes === last.id); next !== undefined; ) {
        last = next;
        next = demoAtlas.parts.find(({ supersedes }) => supersedes === last.id);
      }
      const found = ofPart(first).parts.find((one) => one.part === part.id)?.supersededBy;
      expect(found?.part ?? null, part.name).toBe(last === part ? null : last.id);
      if (found) expect(found.number).toBe(last.numbers[0] ?? null);
    }
  });

  test('[O5] a whole number no part has is not listed, and may be of the models the plate leaves', () => {
    const read = ofPart('FLAG 76736/9');
    expect([read.state, read.parts]).toEqual(['whole', []]);
    expect(read.mayBeOf.map(({ name }) => name)).toEqual(['Petrel 13 Cartridge']);
    expect(ofPart('FLAG 76736').mayBeOf).toEqual([]);
    expect(numberSoFar(demo, 'FLAG 76736/9', { says: 'part number', entry: null }).mayBeOf).toEqual([]);
  });

  test('[O5] what cannot stand there is named with its place and what can', () => {
    expect(ofPart('FLAG 76X36/1').state).toBe('wrong');
    expect(pieces(ofPart('FLAG 76X36/1'))).toEqual([
      'FLAG: nameplate, read',
      '76: running number, begun, 5 figures',
      'X36: running number, wrong, 5 figures',
    ]);
    expect(ofPart('FLAG 76X36/1').readings[0]?.pieces.at(-1)).toMatchObject({ from: 7, to: 10 });
    expect(pieces(ofPart('FLAG 76736/12'))?.at(-1)).toBe('2: after the end, wrong, nothing more');
    expect(pieces(ofSerial('R 0313'))?.at(-1)).toBe('3: month, wrong, 01 to 12');
    expect(ofPart('Ж')).toMatchObject({ state: 'none', readings: [] });
  });

  test('[O5] a check digit that is wrong is read, and said', () => {
    const read = ofSerial('R 0307 41377 3');
    expect(read.state).toBe('whole');
    expect(pieces(read)?.at(-1)).toBe('3: check digit, wrong, 2');
    expect(read.readings[0]).toMatchObject({ made: { from: 2003, to: 2003 }, month: 7 });
    expect(pieces(ofSerial('R 0307 41377 2'))?.at(-1)).toBe('2: check digit, read');
  });

  test('[O5] where a code can be read in two ways, that of the slot that is entered comes first', () => {
    expect(ofPart('10').readings.map(({ slot }) => slot)).toEqual(['nameplate', 'compressor-housing']);
    expect(numberSoFar(demo, '10', { says: 'part number', entry: null }).readings).toHaveLength(2);
    expect(ofPart('10/1234')).toMatchObject({ state: 'whole', readings: [{ maker: 'tarnwick', slot: 'nameplate' }] });
  });

  test('[O5] the trade name beside it says whose it is; another maker’s number is still read, and said to be another’s', () => {
    expect(ofPart('FLAG 76736/1', 'Lisle-Merrowby').readings).toMatchObject([{ maker: 'merrowby', ofAnother: false }]);
    expect(ofPart('FLAG 76736/1', 'Tarnwick Turbine Company').readings).toMatchObject([{ maker: 'merrowby', ofAnother: true }]);
    // Both makers begin a serial number with two such letters.
    expect(ofSerial('BD', 'Veldmark').readings.map(({ maker }) => maker)).toEqual(['veldmark', 'merrowby']);
    expect(ofSerial('BD', 'Lisle-Merrowby').readings.map(({ maker }) => maker)).toEqual(['merrowby', 'veldmark']);
    expect(ofSerial('19', 'Tarnwick Turbine Company').readings[0]).toMatchObject({ maker: 'tarnwick', ofAnother: false });
  });

  test('[A5] makers of whose numbers nothing is known are named', () => {
    expect(ofSerial('Z', 'Osterhal Diesel')).toMatchObject({ state: 'none', silent: ['osterhal'] });
    expect(ofSerial('Z').silent).toEqual(['osterhal']);
    expect(ofPart('Z').silent).toEqual([]);
  });

  test('[O5] at every sign of every listed number its maker is among those that go on, and a sign that cannot be there is found where it is', () => {
    for (const part of demoAtlas.parts.filter((_, nth) => nth % 5 === 0)) {
      const maker = demoAtlas.makers.find(({ id }) => id === part.maker);
      const patterns = (maker?.numbering ?? []).filter(({ says }) => says === 'part number');
      for (const text of part.numbers) {
        if (!patterns.some((pattern) => readNumber(pattern, text).length > 0)) continue;
        const whole = numberSoFar(demo, text, { says: 'part number', entry: null });
        expect([whole.state, whole.parts.some((one) => one.part === part.id)], text).toEqual(['whole', true]);
        for (let at = 0; at < text.length; at += 1) {
          if (!/[\p{L}\p{N}]/u.test(text[at] as string)) continue;
          const begun = numberSoFar(demo, text.slice(0, at), { says: 'part number', entry: null });
          expect(['begun', 'whole'], text.slice(0, at)).toContain(begun.state);
          if (at === 0) continue;
          const spoilt = numberSoFar(demo, `${text.slice(0, at)}Ж${text.slice(at + 1)}`, { says: 'part number', entry: null });
          expect(spoilt.state).toBe('wrong');
          for (const { pieces: read } of spoilt.readings)
            expect(read.find(({ state }) => state === 'wrong')?.from, `${text} at ${at}`).toBe(at);
        }
      }
    }
  });
});
