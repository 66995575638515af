import { existsSync, readdirSync, statSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { expect, test } from 'vitest';
import { parts } from '../../../renderer/help/parts.ts';
import { guidePage } from '../../guide/page.ts';
import { mostBytes, pictures } from '../../guide/pictures.ts';

const docs = (of: string): string => fileURLToPath(new URL(`../../../docs/${of}`, import.meta.url));

test('[V4] the guide in the repository says what help says', async () => {
  await expect(guidePage()).toMatchFileSnapshot(docs('guide.md'));
});

test('[V4] every picture of the guide is there, stands under a heading there is, and is small', () => {
  const headings = parts.flatMap(({ id, sections }) => [id, ...sections.map((section) => section.id)]);
  expect(pictures.filter(({ after }) => !headings.includes(after)).map(({ file }) => file)).toEqual([]);
  expect(pictures.filter(({ file }) => !guidePage().includes(`(guide/${file})`)).map(({ file }) => file)).toEqual([]);
  expect(readdirSync(docs('guide')).sort()).toEqual(pictures.map(({ file }) => file).sort());
  for (const { file } of pictures) {
    expect(existsSync(docs(`guide/${file}`)), file).toBe(true);
    expect(statSync(docs(`guide/${file}`)).size, file).toBeLessThanOrEqual(mostBytes);
  }
});
