import { expect, test } from 'vitest';
import { inStockPhrase, readyOf, type StockCondition, sayInStock, stockConditions } from '../../../reasoner/plain/stock-condition.ts';

const lines = (...of: readonly (readonly [number, StockCondition])[]) => of.map(([many, condition]) => ({ many, condition }));

test('[P11] in stock is what may go into a build as it lies there; the rest stands beside it with its condition', () => {
  const all = lines(...stockConditions.map((condition, at) => [10 ** at, condition] as const));
  expect(readyOf(all)).toBe(11);
  expect(sayInStock(all)).toBe(
    '11 (and 100 used, to be worked on; 1000 whole core, to be rebuilt; 10000 good for its pieces only; 100000 not looked at yet)',
  );
  expect(sayInStock(lines([2, 'new']))).toBe('2');
  expect(sayInStock(lines([1, 'new'], [2, 'used, good as it is']))).toBe('3');
  expect(sayInStock([])).toBe('0');
});

test('[P11] a part nobody looked at yet is neither in stock nor none: it is said, and one rack beside another is one sum', () => {
  expect(sayInStock(lines([1, 'not looked at yet']))).toBe('0 (1 not looked at yet)');
  expect(sayInStock(lines([1, 'not looked at yet'], [1, 'new'], [2, 'not looked at yet']))).toBe('1 (and 3 not looked at yet)');
  expect(sayInStock(lines([0, 'good for its pieces only'], [1, 'new']))).toBe('1');
});

test('[P11] in a line of text it is said so, and nothing where nothing lies', () => {
  expect(inStockPhrase(lines([2, 'new'], [1, 'used, to be worked on']))).toBe('2 in stock (and 1 used, to be worked on)');
  expect(inStockPhrase(lines([1, 'good for its pieces only']))).toBe('none ready in stock (1 good for its pieces only)');
  expect(inStockPhrase(lines([2, 'new']))).toBe('2 in stock');
  expect(inStockPhrase([])).toBeNull();
  expect(inStockPhrase(lines([0, 'new']))).toBeNull();
});
