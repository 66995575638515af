import { expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { demoFolder } from '../seed/demo-atlas.ts';
import { holding } from './holding.ts';
import { kinplateRun } from './kinplate-run.ts';

const questions = async (...args: readonly string[]) =>
  kinplateRun(['questions', '--data', await holding(demoFolder), ...args], { shipped: demoFolder });

test('a sheet of questions has its number on the questions and on the answers, and is made again from it', async () => {
  const asked = ['--number', '7', '--families', 'petrel,skua', '--count', '4'];
  const { code, out } = await questions(...asked);
  expect(code).toBe(exitCodes.stands);
  expect(out.match(/^Sheet 7 · Petrel, Skua · all kinds · 4 questions · atlas /gm)).toHaveLength(2);
  expect(out.match(/^## \d+\. /gm)).toHaveLength(4);
  expect(out.split('# Answers')[1]?.match(/^\d+\. \*\*[A-F]/gm)).toHaveLength(4);
  expect((await questions(...asked)).out).toBe(out);
  expect((await questions('--number', '8', ...asked.slice(2))).out).not.toBe(out);
});

test('a family the atlas does not have, a kind there is none of, a number that is none: each is refused in a sentence', async () => {
  expect((await questions('--families', 'heron')).err).toContain('The atlas has no family “heron”.');
  expect(await questions('--kinds', 'riddles')).toMatchObject({ code: exitCodes.usage, out: '' });
  expect((await questions('--number', 'seven')).err).toContain('not “seven”');
});
