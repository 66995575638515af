import fc from 'fast-check';
import { expect, test } from 'vitest';
import { pathText, placesIn } from '../../../db/read/json-places.ts';

const isJson = (text: string): boolean => {
  try {
    JSON.parse(text);
    return true;
  } catch {
    return false;
  }
};

test('what JSON.parse reads, the scan reads, and the reverse, on spoilt texts too', () => {
  const spoilt = fc
    .tuple(
      fc.json({ maxDepth: 4 }),
      fc.nat(),
      fc.constantFrom('', ',', '"', '}', ']', '{', '[', ':', '\\', '\n', '0', '1', '-', '.', 'e', 't', 'null', '\u0001', ' '),
      fc.nat(2),
    )
    .map(([text, at, sign, gone]) => text.slice(0, at % (text.length + 1)) + sign + text.slice((at % (text.length + 1)) + gone));
  fc.assert(
    fc.property(spoilt, (text) => {
      expect('rowOf' in placesIn(text)).toBe(isJson(text));
    }),
    { seed: 20260304, numRuns: 4000 },
  );
});

test('every value of a printed text is found in its row', () => {
  const text = JSON.stringify({ a: [1, { b: 'x\n\\"', c: [] }], 'd.e': null }, null, 2);
  const places = placesIn(text);
  if (!('rowOf' in places)) throw new Error('the text is JSON');
  expect(
    [[], ['a'], ['a', 0], ['a', 1, 'b'], ['a', 1, 'c'], ['d.e'], ['a', 1, 'missing', 'deeper']].map((path) => places.rowOf(path)),
  ).toEqual([1, 2, 3, 5, 6, 9, 4]);
});

test('[P4] and at its character', () => {
  const places = placesIn('{\n  "a": [1,\n    {"b": true}] ,"c":null\n}');
  if (!('characterOf' in places)) throw new Error('the text is JSON');
  expect(
    [[], ['a'], ['a', 0], ['a', 1], ['a', 1, 'b'], ['c'], ['a', 1, 'missing'], ['nowhere']].map((path) => places.characterOf(path)),
  ).toEqual([1, 8, 9, 5, 11, 23, 5, 1]);
  expect(placesIn('{\n"a": 1,\n  "b" 2\n}')).toMatchObject({ row: 3, character: 7 });
  for (const end of ['', '\n"'])
    expect(placesIn(`{\n  "a": "b\\${end}`)).toMatchObject({ row: 2, character: 11, found: 'the end of the line or file' });
  expect(placesIn('{\r\n  "a": "b\r\n"')).toMatchObject({ row: 2, character: 10 });
  expect(placesIn('{"a": 1,\n "a": 2}')).toMatchObject({ repeated: [{ row: 2, character: 2 }] });
});

test('a text stops being JSON in a row', () => {
  expect(placesIn('{\n"a": 1,\n"b" 2\n}')).toMatchObject({ row: 3, found: '"2"', expected: 'a colon' });
  expect(placesIn('[1,\n2\n')).toMatchObject({ row: 3, expected: 'a comma or ]' });
  expect(placesIn('{"a": 007}')).toMatchObject({ found: '"007"', expected: 'a value' });
});

test('nesting without end is refused, not followed', () => {
  expect(placesIn('['.repeat(200_000))).toMatchObject({ expected: 'values nested no deeper than 50' });
});

test('paths read as they are written', () => {
  expect(pathText([3, 'rules', 0, 'min'])).toBe('[3].rules[0].min');
});
