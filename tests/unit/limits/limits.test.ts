import { readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';
import { limits } from '../../../reasoner/plain/limits.ts';

/** `16 MiB`, `20,000`. */
const figureOf = (text: string): number => {
  const [, figure = '', unit] = /^([\d,.]+)( [KM]iB)?$/.exec(text) ?? [];
  return Number(figure.replaceAll(',', '')) * (unit === ' MiB' ? 1024 * 1024 : unit === ' KiB' ? 1024 : 1);
};

test('[R6] every limit has its row in SPEC.md, with the same figure, and no row is without a limit', () => {
  const spec = readFileSync(path.join(import.meta.dirname, '../../../reasoner/SPEC.md'), 'utf8');
  const rows = [...spec.matchAll(/^\| `(\w+)` \| ([\d,.]+(?: [KM]iB)?) \|/gm)].map(([, name, most]) => [name, figureOf(most as string)]);
  expect(rows.length).toBeGreaterThan(5);
  expect(Object.fromEntries(rows)).toEqual(limits);
});
