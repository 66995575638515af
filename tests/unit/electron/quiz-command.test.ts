import { expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { demoFolder } from '../seed/demo-atlas.ts';
import { kinplateRun } from './kinplate-run.ts';

const quiz = (...args: readonly string[]) => kinplateRun(['quiz', '--pack', demoFolder, ...args], { shipped: demoFolder });

test('a paper quiz names its seed on the questions and on the key, and is made again from it', async () => {
  const asked = ['--seed', '7', '--families', 'petrel,skua', '--count', '4'];
  const { code, out } = await quiz(...asked);
  expect(code).toBe(exitCodes.stands);
  expect(out.match(/^Seed 7 · Petrel, Skua · all kinds · 4 questions · atlas /gm)).toHaveLength(2);
  expect(out.match(/^## \d+\. /gm)).toHaveLength(4);
  expect(out.split('# Key')[1]?.match(/^\d+\. \*\*[A-F]/gm)).toHaveLength(4);
  expect((await quiz(...asked)).out).toBe(out);
  expect((await quiz('--seed', '8', ...asked.slice(2))).out).not.toBe(out);
});

test('a family the atlas does not have, a kind there is none of, a seed that is no number: each is refused in a sentence', async () => {
  expect((await quiz('--families', 'heron')).err).toContain('The atlas has no family “heron”.');
  expect(await quiz('--kinds', 'riddles')).toMatchObject({ code: exitCodes.usage, out: '' });
  expect((await quiz('--seed', 'seven')).err).toContain('not “seven”');
});
