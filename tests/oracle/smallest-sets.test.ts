import { describe, expect, test } from 'vitest';
import { compileAtlas, type Fact, type SubjectRef, tellApart } from '../../reasoner/index.ts';
import { littleAtlas } from '../unit/reasoner/little-atlas.ts';
import { answerSets } from './clingo.ts';
import { Dice } from './dice.ts';

/**
 * Random tables of parts against features. What separates whom is worked out here once more from the facts, by listing every reading a part could give; the fewest checks
 * are counted by trying all sets, and clingo is asked for the same optimum and for all sets that reach it, by number and by minutes.
 */
const random = (seed: number) => {
  const dice = new Dice(seed);
  const subjects = dice.whole(2, 5);
  const features = dice.whole(3, 8);
  const stages = ['as-received', 'housing-off', 'stripped'];
  const made = Array.from({ length: features }, (_, f) => ({
    id: `wheel.f${f}`,
    slot: 'wheel',
    name: `feature ${f}`,
    kind: dice.one(['count', 'choice', 'presence']),
    stage: dice.one(stages),
    minutes: dice.whole(1, 9),
    options: [0, 1, 2].map((option) => ({ id: String(option), name: String(option) })),
  }));
  const fact = (kind: string): Fact => {
    if (dice.often(14)) return { kind: 'not known' };
    if (kind === 'count') {
      const from = dice.whole(5, 9);
      return { kind: 'count', from, to: from + (dice.often(25) ? 1 : 0) };
    }
    if (kind === 'presence') return { kind: 'presence', present: dice.often(50) };
    return { kind: 'choice', anyOf: dice.often(25) ? ['0', dice.one(['1', '2'])] : [dice.one(['0', '1', '2'])] };
  };
  const parts = Array.from({ length: subjects }, (_, s) => ({
    id: `wheel/p${s}`,
    slot: 'wheel',
    name: `p${s}`,
    maker: null,
    numbers: [],
    facts: Object.fromEntries(made.map((feature) => [feature.id, fact(feature.kind)])),
    source: 'made-up',
  }));
  const atlas = compileAtlas({
    ...littleAtlas,
    features: [...littleAtlas.features, ...made],
    parts: [...littleAtlas.parts, ...parts],
  } as never);
  return { atlas, made, parts, refs: parts.map(({ id }) => ({ kind: 'part', id })) as unknown as readonly SubjectRef[] };
};

/** Every reading a fact allows; null: any. */
const readings = (fact: Fact): readonly string[] | null => {
  switch (fact.kind) {
    case 'count':
      return Array.from({ length: fact.to - fact.from + 1 }, (_, i) => String(fact.from + i));
    case 'choice':
      return fact.anyOf;
    case 'presence':
      return [String(fact.present)];
    default:
      return null;
  }
};

const minutesTo = { 'as-received': 0, 'housing-off': 15, stripped: 55 } as const;

describe('smallest and cheapest sets of checks on random tables', () => {
  test('[D2] [D3] by trying every set, and by clingo', async () => {
    let tabled = 0;
    let notApart = 0;
    for (let seed = 1; seed <= 120; seed += 1) {
      const { atlas, made, parts, refs } = random(seed);
      const answer = tellApart(atlas, refs);
      if (answer.kind !== 'apart') throw new Error(answer.kind);
      const pairs = answer.pairs;
      const separates = made.map(({ id }) =>
        pairs.map(([a, b]) => {
          const [x, y] = [a, b].map((s) => readings((parts[s] as (typeof parts)[number]).facts[id] as Fact));
          return x != null && y != null && !x.some((reading) => y.includes(reading));
        }),
      );
      const asked = pairs.flatMap((_, pair) => (separates.some((row) => row[pair]) ? [pair] : []));
      expect(answer.notApart.map(({ pair }) => pair)).toEqual(pairs.flatMap((_, pair) => (asked.includes(pair) ? [] : [pair])));
      notApart += answer.notApart.length;
      if (asked.length === 0) {
        expect(answer.cheapest).toBeNull();
        continue;
      }
      tabled += 1;
      const minutesOf = (set: readonly number[]) =>
        Math.max(0, ...set.map((f) => minutesTo[(made[f] as (typeof made)[number]).stage as keyof typeof minutesTo])) +
        set.reduce((sum, f) => sum + (made[f] as (typeof made)[number]).minutes, 0);
      const all = Array.from({ length: 2 ** made.length }, (_, mask) => made.flatMap((_, f) => (mask & (1 << f) ? [f] : []))).filter(
        (set) => asked.every((pair) => set.some((f) => separates[f]?.[pair])),
      );
      const least = Math.min(...all.map(({ length }) => length));
      const cheapest = Math.min(...all.map(minutesOf));
      const named = (sets: readonly (readonly string[])[]) => sets.map((set) => [...set].sort().join(' ')).sort();
      const smallest = named(
        all.filter(({ length }) => length === least).map((set) => set.map((f) => (made[f] as (typeof made)[number]).id)),
      );
      expect(answer.smallest.size, `seed ${seed}`).toBe(least);
      expect(named(answer.smallest.sets.map(({ checks }) => checks)), `seed ${seed}`).toEqual(smallest);
      expect(answer.smallest.count).toBe(smallest.length);
      expect(answer.cheapest?.minutes, `seed ${seed}`).toBe(cheapest);

      const program = [
        ...separates.flatMap((row, f) => row.flatMap((yes, pair) => (yes ? [`sep(${f},${pair}).`] : []))),
        ...asked.map((pair) => `pair(${pair}).`),
        ...made.map(
          ({ minutes, stage }, f) => `test(${f}). minutes(${f},${minutes}). strip(${f},${minutesTo[stage as keyof typeof minutesTo]}).`,
        ),
        '{ c(F) : test(F) }.',
        ':- pair(P), not c(F) : sep(F,P).',
      ];
      const fewest = await answerSets([...program, '#minimize { 1,F : c(F) }.', '#show c/1.'].join('\n'), ['--opt-mode=optN', '--quiet=1']);
      const best = Math.min(...fewest.map(({ length }) => length));
      expect(best, `seed ${seed}`).toBe(least);
      const byClingo = fewest
        .filter(({ length }) => length === best)
        .map((atoms) => atoms.map(({ args }) => (made[args[0] as number] as (typeof made)[number]).id));
      expect([...new Set(named(byClingo))], `seed ${seed}`).toEqual(smallest);
      // Stages follow each other in this atlas, so the strip-down of a set is that of its farthest check.
      const cheap = await answerSets(
        [
          ...program,
          'far(S) :- c(F), strip(F,S).',
          'reach(S) :- S = #max { T : far(T) }.',
          '#minimize { M,F : c(F), minutes(F,M); S,strip : reach(S) }.',
          '#show c/1.',
        ].join('\n'),
      );
      expect(Math.min(...cheap.map((atoms) => minutesOf(atoms.map(({ args }) => args[0] as number)))), `seed ${seed}`).toBe(cheapest);
    }
    expect(tabled).toBeGreaterThan(90);
    expect(notApart).toBeGreaterThan(5);
  });
});
