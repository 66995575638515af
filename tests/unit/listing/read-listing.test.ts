import { describe, expect, test } from 'vitest';
import { type Becomes, type Find, readListing } from '../../../reasoner/index.ts';
import { demo } from '../seed/demo-atlas.ts';

const finds = (text: string): readonly Find[] => readListing(demo, text).finds;
/** Every find as its text and what it most likely is. */
const brief = (text: string): readonly (readonly [string, string])[] =>
  finds(text).map(({ text: piece, becomes: [first] }) => [piece, say(first)]);
const say = (one: Becomes): string => {
  switch (one.kind) {
    case 'claim':
      return `claim ${one.maker ?? '?'} ${one.text} (${one.verdict})`;
    case 'maker':
      return `maker ${one.maker}`;
    case 'not taken':
      return `not taken: ${one.feature}`;
    case 'serial':
      return `serial ${one.number}`;
    case 'part number':
      return `number of ${one.parts.map(({ id }) => id).join(' ')}`;
    case 'told': {
      const { value } = one;
      switch (value.kind) {
        case 'count':
          return `${one.feature} ${value.from}..${value.to}`;
        case 'measure':
          return `${one.feature} ${value.value}`;
        case 'choice':
          return `${one.feature} ${value.option}`;
        case 'presence':
          return `${one.feature} ${value.present}`;
        case 'mark':
          return `${one.feature} “${value.text}”`;
      }
    }
  }
};

describe('the text of an offer', () => {
  test('[O1] a whole listing: the claim, blades main and splitter apart, measures in either unit, the plate’s number, letters in quotes', () => {
    expect(
      brief(
        `Genuine Merrowby Petrel 13 Cartridge, low hours! Compressor wheel 7 full blades and 7 splitter blades, exducer 57.1 mm, inducer 1.62 in.
Turbine wheel 10 blades, exducer diameter 2 1/4". Plate says FLAG 76736/1, year of make 2003. A/R 14 turbine housing, no wastegate, water ports.
Cast "MERROWBY" on the bearing housing.`,
      ),
    ).toEqual([
      ['Merrowby Petrel 13 Cartridge', 'claim merrowby Petrel 13 Cartridge (a model of the atlas)'],
      ['7 full blades', 'compressor-wheel-full-blades 7..7'],
      ['7 splitter blades', 'compressor-wheel-splitter-blades 7..7'],
      ['57.1 mm', 'compressor-wheel-exducer 57.1'],
      ['1.62 in', 'compressor-wheel-inducer 41.148'],
      ['10 blades', 'turbine-wheel-blades 10..10'],
      ['2 1/4"', 'turbine-wheel-exducer 57.15'],
      ['FLAG 76736/1', 'nameplate-number “FLAG 76736/1”'],
      ['year of make 2003', 'nameplate-year 2003..2003'],
      ['A/R 14', 'turbine-housing-area-ratio 14'],
      ['no wastegate', 'turbine-housing-wastegate false'],
      ['water ports', 'bearing-housing-water-ports true'],
      ['"MERROWBY"', 'bearing-housing-cast-name “MERROWBY”'],
    ]);
  });

  test.each([
    ['petrel 13 for sale', 'petrel 13', 'claim ? petrel 13 (no name of this maker)'],
    ['a Rowan IV', 'Rowan IV', 'claim ? Rowan IV (no name of this maker)'],
    ['Basalt-QD′, boxed', 'Basalt-QD′', 'claim ? Basalt-QD′ (a model of the atlas)'],
    ['yawl 240 port, running', 'yawl 240 port', 'claim ? yawl 240 port (a model of the atlas)'],
    ['Lisle Air Engines Tern 3', 'Lisle Air Engines Tern 3', 'claim merrowby Tern 3 (a model of the atlas)'],
    ['made by Lisle-Merrowby, I think', 'Lisle-Merrowby', 'maker merrowby'],
  ])('[N6] a name is read by its maker’s grammar, whether or not such a model exists: %s', (text, piece, means) => {
    expect(brief(text)).toContainEqual([piece, means]);
  });

  test('[O1] a part number is known however it is spaced; one the sheet has no place for goes to the story with its part', () => {
    expect(brief('plate flag76736 / 1')).toEqual([['flag76736 / 1', 'nameplate-number “flag76736 / 1”']]);
    expect(brief('new wheel SAIL 12000/1 incl.')).toEqual([['SAIL 12000/1', 'number of merrowby-tern-3-compressor-housing']]);
    expect(brief('SAIL 12000/12')).toEqual([]);
  });

  test.each([
    ['turbine wheel, 11 or 12 blades', '11 or 12 blades', 'turbine-wheel-blades 11..12'],
    ['10-11 blade turbine wheel', '10-11 blade', 'turbine-wheel-blades 10..11'],
    ['compressor wheel 6+6 blades', '6', 'compressor-wheel-full-blades 6..6'],
    ['compressor wheel 6+6 blades', '6 blades', 'compressor-wheel-splitter-blades 6..6'],
    ['impeller with 6 splitters', '6 splitters', 'compressor-wheel-splitter-blades 6..6'],
    ['6/6 blades', '6 blades', 'compressor-wheel-splitter-blades 6..6'],
    ['6 + 6 blades', '6', 'compressor-wheel-full-blades 6..6'],
    ['7x6 blades', '7', 'compressor-wheel-full-blades 7..7'],
    ['compressor wheel 7+6', '7', 'compressor-wheel-full-blades 7..7'],
    ['compressor wheel 7/6', '6', 'compressor-wheel-splitter-blades 6..6'],
    ['7 full + 6 splitter blades', '7 full', 'compressor-wheel-full-blades 7..7'],
    ['7 main and 6 splitters', '7 main', 'compressor-wheel-full-blades 7..7'],
    ['7 long, 6 short blades', '7 long', 'compressor-wheel-full-blades 7..7'],
    ['7 long, 6 short blades', '6 short blades', 'compressor-wheel-splitter-blades 6..6'],
    ['made in 1998', 'made in 1998', 'nameplate-year 1998..1998'],
    ['compressor wheel: full blade count 7', 'full blade count 7', 'compressor-wheel-full-blades 7..7'],
  ])('[O1] counts with what is counted beside them: %s', (text, piece, means) => {
    expect(brief(text)).toContainEqual([piece, means]);
  });

  test('[O1] where the text leaves open which part it means, nobody chooses for the reader', () => {
    const [entry] = finds('A twin entry unit.');
    expect(entry?.settled).toBe(false);
    expect(entry?.becomes.map(say).sort()).toEqual(['turbine-housing-entry twin', 'turbine-wheel-entry twin']);
    const blades = finds('The compressor wheel has 7 blades.')[0];
    expect(blades?.settled).toBe(false);
  });

  test('[A5] a number that says of nothing what it measures is left alone, and so is the word in', () => {
    expect(finds('57 mm')).toEqual([]);
    expect(finds('3 in stock, exducer as new')).toEqual([]);
    expect(finds('Price 240, call after 6 pm.')).toEqual([]);
    expect(finds('')).toEqual([]);
  });

  test.each([
    [
      '12 blades (6+6)',
      [
        ['6', 'compressor-wheel-full-blades 6..6'],
        ['6', 'compressor-wheel-splitter-blades 6..6'],
      ],
    ],
    [
      'compressor wheel 13 blades: 7 + 6, turbine 10 blades',
      [
        ['7', 'compressor-wheel-full-blades 7..7'],
        ['6', 'compressor-wheel-splitter-blades 6..6'],
        ['10 blades', 'turbine-wheel-blades 10..10'],
      ],
    ],
  ] as const)('[O1] a sum is not counted beside its parts: %s', (text, means) => {
    expect(brief(text)).toEqual(means);
    expect(finds(text).every(({ settled }) => settled)).toBe(true);
  });

  test('[O1] two counts with nothing beside them are a doubt where no part is named, and with a stroke they are none', () => {
    expect(brief('low hours, 6+6')).toEqual([
      ['6', 'compressor-wheel-full-blades 6..6'],
      ['6', 'compressor-wheel-splitter-blades 6..6'],
    ]);
    expect(finds('low hours, 6+6').map(({ settled }) => settled)).toEqual([false, false]);
    expect(finds('compressor wheel 6+6').map(({ settled }) => settled)).toEqual([true, true]);
    expect(finds('delivered 6/6')).toEqual([]);
    expect(finds('compressor wheel 57x70')).toEqual([]);
    // Not their sum: both are read, and the bare count stays a doubt.
    expect(finds('compressor wheel, 14 blades (6+6)').map(({ settled }) => settled)).toEqual([false, true, true]);
    expect(finds('The compressor wheel has 12 blades.').map(({ settled }) => settled)).toEqual([false]);
  });

  test('[O1] a clause that has words of another part is not read as of the part before it', () => {
    expect(brief('compressor wheel 7 full blades, turbine 10 blades')).toContainEqual(['10 blades', 'turbine-wheel-blades 10..10']);
    expect(brief('compressor wheel 7 full blades, exducer 57.2 mm, wheel bore 6 mm').map(([, means]) => means)).toContain(
      'compressor-wheel-bore 6',
    );
  });

  test('[O1] what is found by two of its names in one place is one meaning, and settled', () => {
    const [ball] = finds('Ball bearings, runs well');
    expect(ball?.becomes.map(say)).toEqual(['bearing-set-kind cartridge']);
    expect(ball?.settled).toBe(true);
    expect(finds('twin scroll turbine housing')[0]?.becomes).toHaveLength(1);
  });

  test.each([
    ['S/N R 0307 41377 2, boxed', 'R 0307 41377 2'],
    ['s.n. K-123/4', 'K-123/4'],
    ['SN: 4455', '4455'],
    ['serial no. BD 123456-7 and a spare', 'BD 123456-7'],
    ['Serial number is 1998-00123', '1998-00123'],
    ['ser. nr 1998-00123 10 blades', '1998-00123'],
    ['Serial QX 778', 'QX 778'],
    ['serial no. K123456.', 'K123456'],
  ])('[O1] a serial number is known by what stands before it, and reaches as far as a maker makes one: %s', (text, number) => {
    const [serial] = finds(text);
    expect(serial?.becomes.map(say)).toEqual([`serial ${number}`, `nameplate-serial-text “${number}”`]);
  });

  test.each([
    'Serial no longer readable',
    'S/N unreadable, sold as seen',
    'serial 3 of 5',
    'series 1234',
    'basin 4455',
    'serial number',
    'S/N',
  ])('[O1] without a number behind it there is no serial number: %s', (text) => {
    expect(finds(text).flatMap(({ becomes }) => becomes.filter(({ kind }) => kind === 'serial'))).toEqual([]);
  });
});
