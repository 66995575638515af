import { describe, expect, test } from 'vitest';
import type { FigureCell } from '../../../../db/tables/read-fact.ts';
import { readFact } from '../../../../db/tables/read-fact.ts';
import { decimalSignIn } from '../../../../db/tables/read-figure.ts';
import { sayFact } from '../../../../db/tables/say-fact.ts';
import { demoAtlas } from '../../seed/demo-atlas.ts';
import { asked, feature } from './weather-shop.ts';

const [inducer, angle, blades, back, wastegate, mark] = [
  'compressor-wheel-inducer',
  'turbine-wheel-cutback-angle',
  'turbine-wheel-blades',
  'compressor-wheel-back',
  'turbine-housing-wastegate',
  'compressor-wheel-mark',
].map(feature) as [F, F, F, F, F, F];
type F = ReturnType<typeof feature>;

const cellOf = (text: string, rest: Partial<FigureCell> = {}): FigureCell => ({
  column: 0,
  text,
  part: 'size',
  unit: null,
  within: null,
  number: false,
  ...rest,
});
const said = (of: F, cells: readonly FigureCell[], decimal = decimalSignIn(cells.map(({ text }) => text))): string => {
  const read = readFact(of, cells, { ...asked, decimal });
  if (!read.ok) return `expected ${read.fault.expected}${(read.fault.likely ?? []).map(({ text }) => `; ${text}`).join('')}`;
  const { fact } = read;
  return fact.kind === 'measure'
    ? `${fact.nominal} ${fact.lower} ${fact.upper}${fact.code === undefined ? '' : ` ${fact.code}`}`
    : JSON.stringify(fact);
};
const size = (text: string, rest: Partial<FigureCell> = {}) => said(inducer, [cellOf(text, rest)]);

describe('[I3] a size', () => {
  test.each([
    ['51.5', '51.5 0 0'],
    ['51,5', '51.5 0 0'],
    ['51.500', '51.5 0 0'],
    ['+51,5 mm', '51.5 0 0'],
    ['Ø 51.5', '51.5 0 0'],
    ['5.15 cm', '51.5 0 0'],
    ['2"', '50.8 0 0'],
    ['2 1/4"', '57.15 0 0'],
    ['2-1/4 in', '57.15 0 0'],
    ['2¼ inch', '57.15 0 0'],
    ['2 1⁄4”', '57.15 0 0'],
    ['2000 thou', '50.8 0 0'],
    ['51.5 ±0.05', '51.5 -0.05 0.05'],
    ['51,5+/-0,05', '51.5 -0.05 0.05'],
    ['2" ± 0.002"', '50.8 -0.0508 0.0508'],
    ['2 ±0.002 in', '50.8 -0.0508 0.0508'],
    ['51.5 +0.02/-0', '51.5 0 0.02'],
    ['51.5 +0.02 -0.01', '51.5 -0.01 0.02'],
    ['51.5 (-0.01 / +0.02) mm', '51.5 -0.01 0.02'],
    ['51,5 −0,03/−0,01', '51.5 -0.03 -0.01'],
    ['51.5 0/+0.02', '51.5 0 0.02'],
    ['51.4–51.6', '51.5 -0.1 0.1'],
    ['51.4-51.6', '51.5 -0.1 0.1'],
    ['51.4 - 51.6', '51.5 -0.1 0.1'],
    ['51.4..51.6', '51.5 -0.1 0.1'],
    ['51.4 to 51.7 mm', '51.55 -0.15 0.15'],
    // ISO 286-2:2010: h6 of over 50 to 80 mm is 0 to −19 µm.
    ['52 h6', '52 -0.019 0 h6'],
    ['⌀52h6', '52 -0.019 0 h6'],
    ['?', '{"kind":"not known"}'],
    ['n/a', '{"kind":"not known"}'],
    ['Unknown', '{"kind":"not known"}'],
  ])('%s is %s', (text, expected) => expect(size(text)).toBe(expected));

  test.each([
    ['1,234', /plain: 1234 where it is thousands, 1\.2340 where it is decimals/],
    ['1,234.5', /without signs between its thousands/],
    ["1'234.5", /without signs between its thousands/],
    ['1 234,5', /without signs between its thousands/],
    ['51.5 -0.02', /both deviations/],
    ['51.5 ±-0.02', /without a sign/],
    ['51.6..51.4', /from the smaller size to the larger/],
    ['2" ± 0.05 mm', /one unit/],
    ['52 h01', /ISO 286/],
    ['2" h6', /in mm beside an ISO 286 code/],
    ['5 4/3"', /fraction/],
    ['1/0"', /fraction/],
    ['32°', /a length/],
    ['about 51', /a size such as/],
    ['-', /a size such as/],
    ['none', /a size such as/],
    ['0', /what can be/],
    ['-51.5', /what can be/],
    ['515', /what is usual, 15 to 200; 51\.5 mm/],
    ['2.25', /what is usual, 15 to 200; 57\.15 mm/],
  ])('%s is refused', (text, expected) => expect(size(text)).toMatch(expected));

  test('three figures behind a sign are decimals where the table’s own figures show it, and of no other sign then', () => {
    expect(decimalSignIn(['1,234', '51'])).toBe('unsaid');
    expect(decimalSignIn(['1,234', '51,5'])).toBe('comma');
    expect(decimalSignIn(['0,125'])).toBe('comma');
    expect(decimalSignIn(['1.234', '51.5 +0.02/-0'])).toBe('point');
    expect(decimalSignIn(['51,5', '51.5'])).toBe('both');
    expect(said(inducer, [cellOf('51,125')], 'comma')).toBe('51.125 0 0');
    expect(said(inducer, [cellOf('51,125')], 'point')).toMatch(/plain/);
    expect(said(inducer, [cellOf('51.125')], 'comma')).toMatch(/plain/);
    expect(said(inducer, [cellOf('51.125')], 'unsaid')).toBe('51.125 0 0');
    // A number the spreadsheet holds as one is what it is.
    expect(said(inducer, [cellOf('51.125', { number: true })], 'comma')).toBe('51.125 0 0');
  });

  test('its column says in what it is, and how far off where nothing else does', () => {
    expect(size('2.25', { unit: 'inch' })).toBe('57.15 0 0');
    expect(size('57.15 mm', { unit: 'inch' })).toBe('57.15 0 0');
    expect(size('51.5', { within: 0.05 })).toBe('51.5 -0.05 0.05');
    expect(size('2.25', { unit: 'inch', within: 0.002 })).toBe('57.15 -0.0508 0.0508');
    expect(size('51.4..51.6', { within: 0.5 })).toBe('51.5 -0.1 0.1');
    expect(said(angle, [cellOf('32')])).toBe('32 0 0');
    expect(said(angle, [cellOf('-2,5° ±0,5°')])).toBe('-2.5 -0.5 0.5');
    expect(said(angle, [cellOf('32 mm')])).toMatch(/degrees/);
  });

  test('its deviations, limits or code may stand in columns of their own: both or neither, in one way', () => {
    const with_ = (...cells: [FigureCell['part'], string][]) =>
      said(
        inducer,
        cells.map(([part, text], column) => cellOf(text, { part, column })),
      );
    expect(with_(['size', '51.5'], ['lower', '-0.01'], ['upper', '0.02'])).toBe('51.5 -0.01 0.02');
    expect(with_(['least', '51.4'], ['greatest', '51.6'])).toBe('51.5 -0.1 0.1');
    expect(with_(['size', '51.5'], ['least', '51.4'], ['greatest', '51.7'])).toBe('51.5 -0.1 0.2');
    expect(with_(['size', '52'], ['code', 'h6'])).toBe('52 -0.019 0 h6');
    expect(with_(['size', '51.5'], ['lower', '-0.01'], ['upper', ''])).toMatch(/both deviations/);
    expect(with_(['size', '51.5'], ['lower', '0.02'], ['upper', '-0.01'])).toMatch(/no less than the lower/);
    expect(with_(['size', '51.5 ±0.1'], ['lower', '-0.01'], ['upper', '0.02'])).toMatch(/one way/);
    expect(with_(['size', ''], ['lower', '-0.01'], ['upper', '0.02'])).toMatch(/the size its limits are said of/);
    expect(with_(['size', '?'], ['lower', '-0.01'], ['upper', '0.02'])).toMatch(/nothing beside/);
  });
});

test('[I3] counts, choices, yes and no, and marks are read by whatever the atlas calls them, and not known is neither nought nor no', () => {
  const of = (which: F, text: string) => said(which, [cellOf(text)]);
  expect(of(blades, '11')).toBe('{"kind":"count","from":11,"to":11}');
  expect(of(blades, '9–11 blades')).toBe('{"kind":"count","from":9,"to":11}');
  expect(of(blades, '10 or 11')).toBe('{"kind":"count","from":10,"to":11}');
  expect(of(blades, '9 or 11')).toMatch(/9\.\.11/);
  expect(of(blades, '11.5')).toMatch(/a whole number/);
  expect(of(blades, '111')).toMatch(/what is usual, 5 to 24; 11/);
  expect(of(blades, 'none')).toMatch(/a whole number/);
  expect(of(back, 'Full back disc')).toBe('{"kind":"choice","anyOf":["full"]}');
  expect(of(back, 'FULL or scalloped')).toBe('{"kind":"choice","anyOf":["full","scalloped"]}');
  expect(of(back, 'scalop')).toMatch(/full back disc, or scalloped/);
  expect(of(feature('bearing-set-kind'), 'Ball-bearings')).toBe('{"kind":"choice","anyOf":["cartridge"]}');
  // M4.5×0.5 is another thread than M45×0.5.
  expect(of(feature('shaft-thread'), 'M4,5 x 0.5')).toBe('{"kind":"choice","anyOf":["m4.5x0.5"]}');
  expect(of(feature('shaft-thread'), 'M45x0.5')).toMatch(/^expected/);
  expect([of(wastegate, 'Y'), of(wastegate, 'without'), of(wastegate, '?')]).toEqual([
    '{"kind":"presence","present":true}',
    '{"kind":"presence","present":false}',
    '{"kind":"not known"}',
  ]);
  expect(of(wastegate, 'maybe')).toMatch(/yes, no/);
  expect(of(mark, 'ochre | “?” | (blank)')).toBe('{"kind":"mark","anyOf":["ochre","?"],"blank":true}');
});

test('[I5] every fact of the demo world, written into a cell, is read back as it was', () => {
  let count = 0;
  for (const part of demoAtlas.parts)
    for (const [id, fact] of Object.entries(part.facts)) {
      const of = demoAtlas.features.find((one) => one.id === id) as F;
      const text = sayFact(of, fact);
      const read = readFact(of, [cellOf(String(text), { number: typeof text === 'number' })], { ...asked, decimal: 'point' });
      expect(read, `${part.id} ${id} ${text}`).toEqual({ ok: true, fact });
      count += 1;
    }
  expect(count).toBeGreaterThan(5000);
});
