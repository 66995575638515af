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
});
