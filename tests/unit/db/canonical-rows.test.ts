import fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { blankPack } from '../../../db/edits/edited-packs.ts';
import type { Pack } from '../../../db/index.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import type { Part } from '../../../reasoner/index.ts';

const head: Pack['head'] = {
  format: 'kinplate atlas pack',
  version: 1,
  id: 'odd',
  title: 'Odd',
  edition: '2026-01-01',
  invented: true,
  note: 'Odd names.',
};
const named = (name: string, id: number): Part =>
  ({ id: `p${id}`, slot: 's', name, maker: null, numbers: [], facts: {}, source: 'x' }) as unknown as Part;

test('[H5] a cell of the canonical text is quoted where RFC 4180 asks for it, or where it begins or ends with a space, and nowhere else', () => {
  const odd = fc.constantFrom('', ' ', 'a', ',', '"', '\r', '\n', '\ufeff', ';', 'b c', ' d', 'e ', "'", '=1', '\t', 'ä');
  const name = fc.array(odd, { maxLength: 4 }).map((signs) => signs.join(''));
  fc.assert(
    fc.property(fc.array(name, { maxLength: 4 }), (names) => {
      const text = canonicalText({ ...blankPack(head), parts: names.map(named) }).get('parts.csv');
      const columns = ['id', 'slot', 'name', 'maker', 'numbers', 'pattern_of', 'supersedes', 'source'];
      const rows = names.map((each, n) => [`p${n}`, 's', each, '', '', '', '', 'x']);
      expect(text).toBe(`${Papa.unparse([columns, ...rows], { newline: '\n' })}\n`);
    }),
    { numRuns: 500 },
  );
});
