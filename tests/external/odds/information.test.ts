import { describe, expect, it } from 'vitest';
import { type Fact, oddsOf, planChecks, type Seen } from '../../../reasoner/index.ts';
import { instrumentUncertainty } from '../../../reasoner/odds/readings.ts';
import { feature } from '../../unit/reasoner/little-atlas.ts';
import { bestTree, everyReading } from './best-tree.ts';
import { aSlotForEachColumn, columns, oneSlotOfDays } from './play-tennis.ts';
import { asTheTableSays, atlasOfTable, classOf, seeing } from './table-atlas.ts';

const chose = (option: string): Seen => ({ kind: 'choice', option });
const present = (yes: boolean): Fact => ({ kind: 'presence', present: yes });

describe('what a look tells', () => {
  // Quinlan 1986, Machine Learning 1:81–106 (paper to three places: C; further digits recomputed: V).
  const drops = (seen: Record<string, Seen>) => {
    const atlas = oneSlotOfDays();
    const odds = oddsOf(atlas, seeing(atlas, seen), asTheTableSays);
    if (odds.kind !== 'odds') throw new Error('the table contradicts itself');
    return {
      bits: odds.bits,
      of: Object.fromEntries(odds.checks.map(({ feature: id, drop }) => [id, drop])),
      order: odds.checks.map(({ feature: id }) => id),
    };
  };

  it('[Q1] Quinlan’s fourteen days: entropy, the gain of each column, and outlook asked first', () => {
    const { bits, of, order } = drops({});
    expect(bits).toBeCloseTo(0.940286, 6);
    expect(of.outlook).toBeCloseTo(0.24675, 6);
    expect(of.temperature).toBeCloseTo(0.029223, 6);
    expect(of.humidity).toBeCloseTo(0.151836, 6);
    expect(of.wind).toBeCloseTo(0.048127, 6);
    expect(order).toEqual(['outlook', 'humidity', 'wind', 'temperature']);
  });

  it('[Q1] the branches of his tree: humidity settles the sunny days, wind the rainy ones, and overcast needs no more', () => {
    const sunny = drops({ outlook: chose('Sunny') });
    expect(sunny.of.temperature).toBeCloseTo(0.571, 4);
    expect(sunny.of.humidity).toBeCloseTo(0.971, 4);
    expect(sunny.of.wind).toBeCloseTo(0.02, 4);
    expect(sunny.order[0]).toBe('humidity');
    const rain = drops({ outlook: chose('Rain') });
    expect(rain.of.temperature).toBeCloseTo(0.02, 4);
    expect(rain.of.humidity).toBeCloseTo(0.02, 4);
    expect(rain.of.wind).toBeCloseTo(0.971, 4);
    expect(rain.order[0]).toBe('wind');
    expect(drops({ outlook: chose('Overcast') })).toEqual({ bits: 0, of: {}, order: [] });
  });

  it('[Q1] the plan over them is Quinlan’s tree', () => {
    const atlas = oneSlotOfDays();
    const plan = planChecks(atlas, seeing(atlas, {}), asTheTableSays, { depth: 9, atLeast: 0, settled: 0, tells: 1e-6, again: 0 });
    if (plan?.kind !== 'check') throw new Error('no plan');
    const asked = plan.branches.map(({ text, after }) => [
      text.match(/Sunny|Overcast|Rain/)?.[0],
      after.kind === 'check' ? after.check.feature : after.because,
    ]);
    expect(plan.check.feature).toBe('outlook');
    expect(Object.fromEntries(asked)).toEqual({ Sunny: 'humidity', Overcast: 'settled', Rain: 'wind' });
    // One look on the four overcast days, two on the other ten.
    expect(plan.expectedMinutes).toBeCloseTo(1 + 10 / 14, 12);
  });

  it('[Q1] (½, ¼, ⅛, ⅛) is 1.75 bits (Shannon 1948; C)', () => {
    const atlas = frequencies({ a: 4, b: 2, c: 1, d: 1 });
    expect(oddsOf(atlas, seeing(atlas, {}), asTheTableSays)).toMatchObject({ bits: 1.75 });
  });

  it('[Q1] twelve balls, one lighter or heavier: four against four tells 1.5850 bits, six against six 1; three weighings settle it', () => {
    // D. J. C. MacKay, “Information Theory, Inference, and Learning Algorithms” (2003), chapter 4 (C).
    const atlas = twelveBalls();
    const odds = oddsOf(atlas, seeing(atlas, {}), asTheTableSays);
    if (odds.kind !== 'odds') throw new Error('the balls contradict themselves');
    const drop = (id: string) => odds.checks.find(({ feature: of }) => of === id)?.drop;
    expect(odds.bits).toBeCloseTo(Math.log2(24), 12);
    expect(drop('four')).toBeCloseTo(1.585, 4);
    expect(drop('six')).toBeCloseTo(1, 4);
    const plan = planChecks(atlas, seeing(atlas, {}), asTheTableSays, { depth: 9, atLeast: 0, settled: 0, tells: 1e-6, again: 0 });
    if (plan?.kind !== 'check') throw new Error('no plan');
    const ends: number[] = [];
    const walk = (at: (typeof plan.branches)[number]['after'], depth: number): void => {
      if (at.kind === 'end') {
        expect(at).toMatchObject({ because: 'settled', bits: 0 });
        ends.push(depth);
      } else for (const { after } of at.branches) walk(after, depth + 1);
    };
    walk(plan, 0);
    expect(Math.max(...ends)).toBe(3);
    expect(plan.expectedMinutes).toBeGreaterThanOrEqual(Math.log(24) / Math.log(3));
    expect(plan.expectedMinutes).toBeLessThanOrEqual(3);
  });

  it('[Q1] Huffman’s six letters: the best course is his 2.24 looks, no less than the entropy; taking the most telling look first costs 2.50', () => {
    // Cormen, Leiserson, Rivest & Stein, “Introduction to Algorithms”: frequencies 45, 13, 12, 16, 9, 5 → 224 (C). The greedy figure is ours (computed):
    // the first look splits 50 against 50, {a, f} against the rest, where Huffman sets the frequent letter apart at once.
    const atlas = frequencies({ a: 45, b: 13, c: 12, d: 16, e: 9, f: 5 });
    const sheet = seeing(atlas, {});
    const wide = { depth: 9, atLeast: 0, settled: 0, tells: 1e-6, again: 0 };
    const best = bestTree(atlas, sheet, asTheTableSays, wide);
    const odds = oddsOf(atlas, sheet, asTheTableSays);
    if (odds.kind !== 'odds') throw new Error('the letters contradict themselves');
    expect(best).toBeCloseTo(2.24, 12);
    expect(odds.bits).toBeLessThanOrEqual(best);
    expect(planChecks(atlas, sheet, asTheTableSays, wide)?.expectedMinutes).toBeCloseTo(2.5, 12);
    expect(everyReading(atlas, sheet, asTheTableSays, wide).minutes).toBeCloseTo(2.5, 12);
  });

  it('[Q1] a size known to lie within ±a, anywhere alike, has u = a/√3', () => {
    // JCGM 100:2008 (GUM), 4.3.7, example 1: expansion of copper 16.52·10⁻⁶ K⁻¹, error at most 0.40·10⁻⁶: u² = 53.3·10⁻¹⁵, u = 0.23·10⁻⁶ (M).
    const u = instrumentUncertainty(feature('wheel.tip', 'measure', { resolution: 0.4 }));
    expect(u ** 2).toBeCloseTo(0.0533, 4);
    expect(u).toBeCloseTo(0.23, 2);
  });
});

describe('what it is, given what was seen', () => {
  it('[Q1] naive Bayes on Quinlan’s days: (Sunny, Cool, High, Strong) is a day of play with .2046', () => {
    // The worked example of T. M. Mitchell, “Machine Learning” (1997), 6.9.1: .0053 and .0206 (C to four places; .2046 and .7954: V).
    const atlas = aSlotForEachColumn();
    const values = ['Sunny', 'Cool', 'High', 'Strong'];
    const odds = oddsOf(
      atlas,
      seeing(atlas, Object.fromEntries(columns.map((column, i) => [column, chose(values[i] as string)]))),
      asTheTableSays,
    );
    if (odds.kind !== 'odds') throw new Error('the table contradicts itself');
    const chance = Object.fromEntries((odds.ifRight?.names ?? []).map(({ names, chance: of }) => [classOf(names), of]));
    expect(chance.Yes).toBeCloseTo(0.2046, 4);
    expect(chance.No).toBeCloseTo(0.7954, 4);
    expect((chance.Yes as number) / (chance.No as number)).toBeCloseTo(0.005291 / 0.020571, 4);
  });
});

/** A letter for each model; a look asks whether it is one of a set, for every set. */
const frequencies = (times: Readonly<Record<string, number>>) => {
  const letters = Object.keys(times);
  // Every set with the first letter; the others are their complements.
  const sets = Array.from({ length: 2 ** (letters.length - 1) - 1 }, (_, set) =>
    letters.filter((_letter, i) => i === 0 || (set >> (i - 1)) % 2 === 1),
  );
  return atlasOfTable({
    slots: ['letter'],
    features: sets.map((set) => ({ id: set.join(''), slot: 'letter', kind: 'presence' })),
    parts: letters.map((letter) => ({
      id: letter,
      slot: 'letter',
      facts: Object.fromEntries(sets.map((set) => [set.join(''), present(set.includes(letter))])),
    })),
    models: letters.map((letter) => ({ id: letter, times: times[letter] as number, lists: [letter] })),
  });
};

/** Four against four, six against six, and enough others to finish: each weighing names the balls on its two pans. */
const twelveBalls = () => {
  const weighings: Readonly<Record<string, readonly [readonly number[], readonly number[]]>> = {
    four: [
      [1, 2, 3, 4],
      [5, 6, 7, 8],
    ],
    six: [
      [1, 2, 3, 4, 5, 6],
      [7, 8, 9, 10, 11, 12],
    ],
    // If the first balances: three of the rest against three good ones, and then two against each other.
    'three of the rest': [
      [9, 10, 11],
      [1, 2, 3],
    ],
    'nine and ten': [[9], [10]],
    'twelve and a good one': [[12], [1]],
    // If it does not: balls change pans.
    'change pans': [
      [1, 2, 5],
      [3, 4, 6],
    ],
    'one and two': [[1], [2]],
    'three and four': [[3], [4]],
    'seven and eight': [[7], [8]],
  };
  const balls = Array.from({ length: 12 }, (_, i) => i + 1);
  const odd = balls.flatMap((ball) => (['heavy', 'light'] as const).map((how) => ({ id: `${ball}-${how}`, ball, how })));
  return atlasOfTable({
    slots: ['ball'],
    features: Object.keys(weighings).map((id) => ({ id, slot: 'ball', kind: 'choice', options: ['left', 'right', 'level'] })),
    parts: odd.map(({ id, ball, how }) => ({
      id,
      slot: 'ball',
      facts: Object.fromEntries(
        Object.entries(weighings).map(([weighing, [left, right]]): [string, Fact] => {
          const side = left.includes(ball) ? 'left' : right.includes(ball) ? 'right' : 'level';
          const other = { left: 'right', right: 'left', level: 'level' } as const;
          return [weighing, { kind: 'choice', anyOf: [how === 'heavy' ? side : other[side]] }];
        }),
      ),
    })),
    models: odd.map(({ id }) => ({ id, times: 1, lists: [id] })),
  });
};
