import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const root = path.join(import.meta.dirname, '../../..');

/** `F1–F4` is F1, F2, F3 and F4. */
const spread = (rule: string): string[] => {
  const range = /^([A-Z])(\d)–\1?(\d)$/.exec(rule);
  if (range === null) return [rule];
  const [, letter, from, to] = range;
  return Array.from({ length: Number(to) - Number(from) + 1 }, (_, i) => `${letter}${Number(from) + i}`);
};

const defined = (): ReadonlySet<string> => {
  const spec = readFileSync(path.join(root, 'reasoner/SPEC.md'), 'utf8');
  const rows = [...spec.matchAll(/^\| \*\*([^*]+)\*\* \|/gm)].map(([, rules]) => rules as string);
  return new Set(rows.flatMap((rules) => rules.split(', ').flatMap(spread)));
};

const tests = (): readonly string[] =>
  readdirSync(path.join(root, 'tests'), { recursive: true, encoding: 'utf8' })
    .filter((file) => /\.(test|story)\.ts$/.test(file))
    .map((file) => `tests/${file}`);

/** The rules a test's title begins with: `[N4] [N5] …`, and of those one row of a table holds, `[N1–N4] …`. */
const quoted = (text: string): string[] =>
  [...text.matchAll(/\(\s*[`'"]((?:\[[^\]]+\] )+)/g)].flatMap(([, marks]) =>
    [...(marks as string).matchAll(/\[([^\]]+)\]/g)].flatMap(([, rules]) => (rules as string).split(', ').flatMap(spread)),
  );

test('[R1] every rule a test title quotes is defined in SPEC.md', () => {
  const known = defined();
  const unknown = tests().flatMap((file) =>
    quoted(readFileSync(path.join(root, file), 'utf8'))
      .filter((rule) => !known.has(rule))
      .map((rule) => `${file}: [${rule}]`),
  );
  expect(unknown).toEqual([]);
  expect(known.size).toBeGreaterThan(50);
});

test('[R1] a range of rules is every rule of it', () => {
  expect(spread('F1–F4')).toEqual(['F1', 'F2', 'F3', 'F4']);
  expect(quoted("test('[N4] [N5] both', () => {")).toEqual(['N4', 'N5']);
  expect(quoted('describe(`[N1–N3] three`')).toEqual(['N1', 'N2', 'N3']);
});
