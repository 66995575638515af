import { expect, test } from 'vitest';
import { found } from '../../../renderer/lists/found.ts';
import { readPrice, typedPrice } from '../../../renderer/lists/readPrice.ts';

const money = { code: 'XTS', written: 'crowns', before: false, decimals: 2 };
const written = { code: 'XTS', money, comma: true };

test('[P13] a price is read as the shop writes it: nothing is not known, and figures that could be thousands are asked about', () => {
  expect(readPrice(' 12,5 ', written)).toEqual({ ok: true, price: { amount: 12.5, money: 'XTS' } });
  expect(readPrice('12.55', written)).toEqual({ ok: true, price: { amount: 12.55, money: 'XTS' } });
  expect(readPrice('  ', written)).toEqual({ ok: true, price: null });
  for (const wrong of ['0', '0,00', '1,500', '1.500,00', '-3', 'some', '1e3']) {
    const read = readPrice(wrong, written);
    expect(read, wrong).toEqual({
      ok: false,
      sentence: `“${wrong}” is no price. Write it like 12,50, thousands not set apart, or leave it empty where it is not known.`,
    });
  }
  const whole = { ...written, money: { ...money, decimals: 0 } };
  expect(readPrice('12', whole).ok).toBe(true);
  expect(readPrice('12,5', whole)).toMatchObject({ ok: false, sentence: expect.stringContaining('like 12, thousands') });
  // Of money the shop does not write it is not known how many digits come after the point.
  expect(readPrice('1,500', { ...written, code: 'XXX' })).toEqual({ ok: true, price: { amount: 1.5, money: 'XXX' } });
  expect(readPrice('12', { ...written, code: null })).toMatchObject({ ok: false });
  expect(readPrice('', { ...written, code: null })).toEqual({ ok: true, price: null });
  expect([
    typedPrice({ amount: 12.5, money: 'XTS' }, true),
    typedPrice({ amount: 12.5, money: 'XTS' }, false),
    typedPrice(null, true),
  ]).toEqual(['12,5', '12.5', '']);
});

test('[P11] [P13] what is on a list is found by every word that is typed, or by its number however it is spaced', () => {
  const lines = [
    { words: ['Tern bearing housing', 'Rack 1'], numbers: ['HULL 45327/1'] },
    { words: ['Tern wheel', 'Rack 2'], numbers: [] },
  ];
  const names = (typed: string) => found(lines, typed, (line) => line).map(({ words }) => words[0]);
  expect(names('')).toEqual(['Tern bearing housing', 'Tern wheel']);
  expect(names('TERN rack')).toEqual(['Tern bearing housing', 'Tern wheel']);
  expect(names('tern 2')).toEqual(['Tern bearing housing', 'Tern wheel']);
  expect(names('rack 2 wheel')).toEqual(['Tern wheel']);
  expect(names('hull45327')).toEqual(['Tern bearing housing']);
  expect(names('tern heron')).toEqual([]);
  expect(names('/')).toEqual(['Tern bearing housing']);
});
