import { expect, test } from 'vitest';
import { shopRates } from '../../../electron/desk/shop-rates.ts';
import { asId, blankSheet, compileAtlas, type PartId, planBuild, type Rates, type SlotId } from '../../../reasoner/index.ts';
import { moneyText, readAmount, sumOf } from '../../../reasoner/plain/money.ts';
import { worthOf } from '../../../reasoner/plain/worth.ts';
import { filledStore, valueIn } from '../db/kit.ts';

const part = (id: string) => asId<PartId>(id);
const chosen = { [asId<SlotId>('compressor-housing')]: part('ch-rowan'), [asId<SlotId>('bearing-housing')]: part('bh-tern') };
const money = { code: 'XTS', written: 'crowns', before: false, decimals: 2, hour: 40 };

test('[P13] a build is reckoned by the shop’s own hour and prices before a pack’s, where the money is the same; without its hour, by the atlas alone', async () => {
  const store = await filledStore();
  const rates: Rates = {
    id: asId('harbour'),
    name: 'Harbour rates',
    money: 'crowns',
    hour: 30,
    parts: [
      { part: part('ch-rowan'), price: 9 },
      { part: part('bh-tern'), price: 8 },
    ],
    source: asId('shop-book'),
  };
  const atlas = compileAtlas({ ...(await store.atlas.read()), rates: [rates] });
  const sheet = { ...blankSheet(asId('build-01')), kind: 'planned' as const, chosen };
  const costBy = async () => {
    const own = valueIn(await shopRates(store, atlas));
    const plan = planBuild(atlas, sheet, own === undefined ? {} : { rates: own });
    if (plan.kind !== 'plan') throw new Error('no plan');
    return [plan.cost.money, plan.cost.parts.map((one) => [one.part, one.price])];
  };
  const theirs = [
    'crowns',
    [
      ['ch-rowan', 9],
      ['bh-tern', 8],
    ],
  ];
  valueIn(await store.prices.set(part('bh-tern'), { amount: 15, money: 'XTS', note: '' }, ''));
  expect(await costBy()).toEqual(theirs);
  valueIn(await store.settings.save('money', { ...money, hour: null }, ''));
  expect(await costBy()).toEqual(theirs);
  valueIn(await store.settings.save('money', money, ''));
  expect(await costBy()).toEqual([
    'crowns',
    [
      ['ch-rowan', 9],
      ['bh-tern', 15],
    ],
  ]);
  valueIn(await store.settings.save('money', { ...money, written: '' }, ''));
  expect(await costBy()).toEqual([
    'XTS',
    [
      ['ch-rowan', null],
      ['bh-tern', 15],
    ],
  ]);
  valueIn(await store.settings.save('money', { ...money, code: 'XXX' }, ''));
  expect(await costBy()).toEqual(theirs);
});

test('[P13] certain is a slot with one listed part left, as it is made, that is not doubtful, not absent, and whose plate is listed', () => {
  const left = { slot: 'shaft', only: 's-1', machined: 0, numberNotListed: null, doubtful: false, absent: false };
  const priceOf = (one: string) => (one === 's-1' ? 12 : null);
  expect(worthOf([left, { ...left, slot: 'wheel', only: 'w-1' }], priceOf)).toEqual({
    priced: [{ slot: 'shaft', part: 's-1', amount: 12 }],
    unpriced: [{ slot: 'wheel', part: 'w-1' }],
  });
  for (const other of [{ only: null }, { machined: 1 }, { numberNotListed: ['merrowby'] }, { doubtful: true }, { absent: true }])
    expect(worthOf([{ ...left, ...other }], priceOf)).toEqual({ priced: [], unpriced: [] });
});

test('[P10] money is written as the shop writes it, other money with its code; what is no amount above 0 is read as none', () => {
  expect(moneyText(1234.5, 'XTS', money)).toBe('1234.50 crowns');
  expect(moneyText(12, 'XTS', { ...money, written: '₪', before: true }, true)).toBe('₪12,00');
  expect(moneyText(12, 'XTS', { ...money, written: '', before: true, decimals: 0 })).toBe('XTS 12');
  expect([moneyText(12, 'XXX', money), moneyText(12.5, 'XXX', null)]).toEqual(['12 XXX', '12.50 XXX']);
  expect(['12', ' 12,5 ', '0.001', '10000000'].map(readAmount)).toEqual([12, 12.5, 0.001, 10_000_000]);
  expect(['', '0', '0,00', '-1', '1.2345', '10000001', '1 000', 'some', '1e3'].map(readAmount)).toEqual(Array(9).fill(null));
  expect(sumOf([0.1, 0.2])).toBe(0.3);
});
