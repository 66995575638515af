import { expect, test } from 'vitest';
import { matching } from '../../../renderer/look/matching.ts';

const items = ['turbine wheel blade count', 'blade count', 'tip height', 'splitter blades', 'A/R'].map((text) => ({
  text,
  detail: 'as received',
}));
const found = (typed: string) => matching(items, typed).map((item) => item.text);

test('[A1] a feature is found by the beginnings of its words, in any order', () => {
  expect(found('co bl')).toEqual(['turbine wheel blade count', 'blade count']);
  expect(found('tip')).toEqual(['tip height']);
  expect(found('count x')).toEqual([]);
});

test('[A1] features that begin with what was typed come first, those found only by their stage last', () => {
  expect(found('bl')).toEqual(['blade count', 'turbine wheel blade count', 'splitter blades']);
  expect(matching([{ text: 'weld', detail: 'blades off' }, ...items], 'bla').at(-1)?.text).toBe('weld');
});

test('[A1] nothing typed shows everything in the order given', () => {
  expect(found('  ')).toEqual(items.map((item) => item.text));
});

test('[A1] a feature is found by what else the trade calls it, after those whose own name says it', () => {
  const wheel = [{ text: 'full blade count', also: 'main blades long blades' }, { text: 'main bore' }];
  expect(matching(wheel, 'main').map(({ text }) => text)).toEqual(['main bore', 'full blade count']);
  expect(matching(wheel, 'long bl').map(({ text }) => text)).toEqual(['full blade count']);
});

test('[A1] a feature typed whole comes before those that only begin so', () => {
  const items = [{ text: 'bore length' }, { text: 'bore' }, { text: 'seal bore' }];
  expect(matching(items, 'bore').map(({ text }) => text)).toEqual(['bore', 'bore length', 'seal bore']);
});
