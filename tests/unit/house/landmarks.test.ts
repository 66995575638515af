import { readdirSync, readFileSync } from 'node:fs';
import path from 'node:path';
import { expect, test } from 'vitest';

const renderer = path.join(import.meta.dirname, '../../../renderer');
const sources = readdirSync(renderer, { recursive: true, encoding: 'utf8' }).filter((file) => /\.tsx?$/.test(file));

/** Selectors handed to the document, as far as they are written out where it is asked. */
const selectorsIn = (text: string): readonly string[] =>
  [...text.matchAll(/\b(?:querySelector|querySelectorAll|closest|matches)(?:<[^>]*>)?\(\s*(['"`])((?:(?!\1).)*)\1/gs)].map(
    ([, , selector = '']) => selector,
  );

test('no key and no focus of the window is led by how a place looks: landmarks are told by an attribute', () => {
  const byClass = sources.flatMap((file) =>
    selectorsIn(readFileSync(path.join(renderer, file), 'utf8'))
      .filter((selector) => /(?:^|[\s,>+~\w\])])\.[a-z]/.test(selector.replace(/\$\{[^}]*\}/g, '')))
      .map((selector) => `${file}: ${selector}`),
  );
  expect(byClass).toEqual([]);
  expect(sources.length).toBeGreaterThan(200);
  expect(selectorsIn(`event.target.closest('form.editor') + list.querySelector<HTMLElement>('.hits a')`)).toEqual([
    'form.editor',
    '.hits a',
  ]);
});
