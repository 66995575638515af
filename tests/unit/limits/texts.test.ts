import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { z } from 'zod';
import { parseJson } from '../../../db/read/parse-json.ts';
import { isDeeper } from '../../../reasoner/plain/json-depth.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { halfIn } from '../../../reasoner/plain/well-formed.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../reasoner/plain/json-depth.ts'));
const bytes = (text: string) => new TextEncoder().encode(text);

/** Lists and objects within each other, counted on the value itself. */
const depthOf = (value: unknown): number =>
  typeof value === 'object' && value !== null ? 1 + Math.max(0, ...Object.values(value).map(depthOf)) : 0;

describe('how deep a text of JSON goes', () => {
  test('[R6] is told from the text as from the value, whatever stands in its texts and keys', () => {
    fc.assert(
      fc.property(fc.json({ maxDepth: 6 }), fc.nat(7), (text, most) => {
        const deeper = depthOf(JSON.parse(text)) > most;
        expect(isDeeper(text, most)).toBe(deeper);
        expect(isDeeper(bytes(text), most)).toBe(deeper);
      }),
    );
    fc.assert(
      fc.property(fc.array(fc.constantFrom('[', ']', '{', '}', '"', '\\', '\\"', 'a'), { maxLength: 12 }), (signs) => {
        const text = JSON.stringify([signs.join('')]);
        expect([isDeeper(text, 0), isDeeper(text, 1), isDeeper(bytes(text), 1)]).toEqual([true, false, false]);
      }),
    );
  });

  test('[R6] twice the text takes at most 2.3 times the work, and what is too deep is not looked at behind its last bracket', () => {
    const of = (many: number) => work(({ isDeeper: deeper }) => void deeper('[]"\\"['.repeat(many), 50));
    expect(growthOf(of, 1000)).toBeLessThan(mostGrowth);
    const deep = work(({ isDeeper: deeper }) => void deeper('['.repeat(1_000_000), 50));
    expect(deep).toBeLessThan(1000);
  });

  const nested = (depth: number) => `${'['.repeat(depth)}1${']'.repeat(depth)}`;
  test('[R6] a file is read to the last depth there may be and no deeper, as a call is', () => {
    expect(parseJson(nested(limits.jsonDepth), z.unknown()).ok).toBe(true);
    expect(parseJson(nested(limits.jsonDepth + 1), z.unknown())).toMatchObject({
      ok: false,
      isJson: false,
      faults: [{ row: 1, found: '"["', expected: 'values nested no deeper than 50' }],
    });
  });
});

describe('half a surrogate pair', () => {
  test.each([
    ['\ud800', []],
    ['a\udfff', []],
    [
      ['whole', '\ud83d\ude00', { a: 'x\ud800y' }],
      [2, 'a'],
    ],
    [{ a: { 'k\udc00': 1 } }, ['a', 'k\udc00']],
    ['\ud83d\ude00', null],
    [{ a: [1, null, true, 'é'] }, null],
  ])('[R6] in %j is found where it stands', (value, path) => {
    expect(halfIn(value)).toEqual(path);
  });

  test('[R6] in a file is a fault of its row, in a text or a key, and what is said of it can be sent on', () => {
    const text = '{\n"a": "whole",\n"b": ["\\ud800"]\n}';
    expect(parseJson(text, z.unknown())).toMatchObject({ ok: false, faults: [{ row: 3, column: 'b[0]', found: 'half a surrogate pair' }] });
    const key = parseJson('{\n\n"a\\udc00": 1}', z.unknown());
    expect(key).toMatchObject({ ok: false, faults: [{ row: 3, column: 'a\ufffd' }] });
    expect(halfIn(key)).toBeNull();
    // An escape that only looks like one.
    expect(parseJson('["\\\\ud800"]', z.unknown()).ok).toBe(true);
  });
});
