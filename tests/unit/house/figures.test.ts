import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const renderer = path.join(import.meta.dirname, '../../../renderer');
const sources = readdirSync(renderer, { recursive: true, encoding: 'utf8' }).filter((file) => /\.tsx?$/.test(file));

/** The room for figures, which knows the shop’s sign before decimals and the length that was chosen. */
const room = ['values/figures.ts', 'values/lengths.ts'];

/** What may stand elsewhere, each with why. */
const excepted: readonly (readonly [file: string, text: string, why: string])[] = [
  ['values/readSeen.ts', '.toPrecision(', 'a starting uncertainty is worked out with it, and not shown'],
  ['tree/svgText.ts', 'Math.round(value * 100) / 100', 'coordinates of a drawing, in its own language'],
  ['tree/runPath.ts', 'Math.round(value * 100) / 100', 'coordinates of a drawing, in its own language'],
  ['edit/fieldWords.ts', ", mm'", 'what a pack holds is typed in mm, and kept as it is typed'],
];

/** Figures made into text past the shop’s settings: rounded by hand, or a length said in mm whatever was chosen. */
const bare = [
  /\.to(?:Fixed|Precision|LocaleString)\(/g,
  /\bNumberFormat\b/g,
  /Math\.(?:round|floor|ceil)\([^()\n]*\) \/ 10+\b/g,
  /\b(?:say|read)[A-Z]\w*\([^\n]*, 'mm'\)/g,
  /, mm['"`]|\} mm\b/g,
  /\bdrawing(?:For|sOf)\([^()\n]*vocabulary\)/g,
];

const bareIn = (text: string): readonly string[] => bare.flatMap((one) => [...text.matchAll(one)].map(([found]) => found));

test('[P10] every figure of the window is said by the room that knows the shop’s decimal sign and the length chosen', () => {
  const found = sources
    .filter((file) => !room.includes(file))
    .flatMap((file) => bareIn(readFileSync(path.join(renderer, file), 'utf8')).map((text) => ({ file, text })));
  const isExcepted = (file: string, text: string) => excepted.some(([where, what]) => where === file && text.includes(what));
  expect(found.filter(({ file, text }) => !isExcepted(file, text)).map(({ file, text }) => `${file}: ${text}`)).toEqual([]);
  // An exception nobody needs any more goes.
  expect(excepted.filter(([file, what]) => !found.some((one) => one.file === file && one.text.includes(what)))).toEqual([]);
  expect(sources.length).toBeGreaterThan(200);
});

test('what is refused is seen', () => {
  const sent = [
    'n.toFixed(2)',
    "sayValue(f, v, 'mm')",
    'Math.round(x * 10) / 10',
    '`$' + '{least} mm`',
    "n.toLocaleString('en-GB')",
    "'Cold, mm'",
  ];
  expect(sent.map((text) => bareIn(text).length)).toEqual(sent.map(() => 1));
  expect(bareIn(`sayValue(f, v, unit); width: $${'{'}mm.width}mm; kind === 'mm' ? a : b`)).toEqual([]);
});
