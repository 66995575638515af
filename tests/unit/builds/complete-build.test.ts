import { describe, expect, test } from 'vitest';
import type { BuildConstraints } from '../../../reasoner/builds/completion.ts';
import {
  type Atlas,
  type CompiledAtlas,
  type CompletedBuild,
  compileAtlas,
  completeBuild,
  planBuild,
  type Sheet,
} from '../../../reasoner/index.ts';
import { Dice } from '../../oracle/dice.ts';
import { randomCase } from '../../oracle/random-atlas.ts';
import { buildsByHand, choiceCount, type WeighedBuild } from './brute-force.ts';
import { someConstraints, startFrom, withShop } from './made-up-shop.ts';

interface Start {
  readonly seed: number;
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  readonly constraints: BuildConstraints;
}

/** Made-up starts small enough to look at every build there is. A sheet that contradicts itself is refused at the door and not asked here. */
const starts = (from: number, to: number): readonly Start[] =>
  Array.from({ length: to - from }, (_, i) => from + i).flatMap((seed): Start[] => {
    const dice = new Dice(seed * 31 + 7);
    const made = randomCase(seed);
    const shop: Atlas = withShop(dice, made.atlas);
    const atlas = compileAtlas(shop);
    const sheet = startFrom(dice, shop, made.sheet);
    const constraints = someConstraints(dice, shop);
    if (planBuild(atlas, sheet).kind !== 'plan') return [];
    return choiceCount(atlas, sheet, constraints) <= 150 ? [{ seed, atlas, sheet, constraints }] : [];
  });

const worth = ({ hours, cost, operations, open, rank }: Omit<WeighedBuild, 'names' | 'chosen' | 'unpriced'>) => [
  hours,
  cost,
  operations,
  open,
  rank,
];

/** Every build a found one stands for, each part exchanged for those that would do as well. */
const spread = (build: CompletedBuild): readonly string[] => {
  const ways = build.alike.reduce<readonly CompletedBuild['chosen'][]>(
    (all, { slot, parts }) => all.flatMap((chosen) => [chosen, ...parts.map((part) => ({ ...chosen, [slot]: part }))]),
    [build.chosen],
  );
  return ways.map((chosen) => line(chosen, worth(build)));
};

const line = (chosen: CompletedBuild['chosen'], of: readonly unknown[]): string =>
  `${Object.entries(chosen).sort().join(' ')} | ${of.join(' ')}`;

describe('[F4] builds completed, held against looking at every build there is', () => {
  const asked = starts(1, 241);
  const found = asked.map((start) => completeBuild(start.atlas, start.sheet, start.constraints, { limit: 100_000 }));
  const byHand = asked.map(({ atlas, sheet, constraints }) => buildsByHand(atlas, sheet, constraints));

  test('[N4] each build is called by the words its own plan has for that name', () => {
    for (const [at, { atlas, sheet }] of asked.entries()) {
      for (const { chosen, works, names } of found[at]?.builds ?? []) {
        const plan = planBuild(atlas, { ...sheet, chosen }, { works });
        if (plan.kind !== 'plan') throw new Error('a build that was found contradicts itself');
        const texts = new Map(plan.names.map(({ name }) => [name.id, name.text]));
        for (const { id, text } of names) expect(text, id).toBe(texts.get(id));
      }
    }
  });

  test('[F4] the builds found are those no other beats, each of them and no more', () => {
    asked.forEach(({ seed }, i) => {
      const told = found[i]?.builds.flatMap(spread) ?? [];
      expect([...new Set(told)].sort(), `seed ${seed}`).toEqual(
        [...new Set(byHand[i]?.map((each) => line(each.chosen, worth(each))))].sort(),
      );
    });
  });

  test('[N4] each bears the highest names that stand for it, as a plan of the same parts says', () => {
    asked.forEach(({ seed }, i) => {
      for (const build of found[i]?.builds ?? []) {
        const same = byHand[i]?.find(({ chosen }) => line(chosen, []) === line(build.chosen, []));
        expect(build.names.map(({ id }) => id).sort(), `seed ${seed}`).toEqual([...(same?.names ?? [])].sort());
      }
    });
  });

  test('[F4] the cases are worth asking: builds with work and without, several builds to choose from, starts that cannot be filled', () => {
    const builds = found.flatMap((each) => each.builds);
    expect(asked.length).toBeGreaterThan(60);
    expect(builds.filter(({ operations }) => operations > 0).length).toBeGreaterThan(20);
    expect(builds.filter(({ operations }) => operations === 0).length).toBeGreaterThan(20);
    expect(builds.filter(({ alike }) => alike.length > 0).length).toBeGreaterThan(5);
    expect(found.filter((each) => each.builds.length > 1).length).toBeGreaterThan(10);
    expect(found.filter((each) => each.builds.length === 0).length).toBeGreaterThan(5);
  });

  test('[F4] an atlas that was asked other things before answers as one that was not', () => {
    let told = 0;
    for (const { seed, atlas, sheet, constraints } of asked.slice(0, 60)) {
      const bare = { ...sheet, observations: [] };
      const once = completeBuild(compileAtlas(atlas.data), bare, {}, { limit: 100_000 });
      for (const of of [bare, sheet])
        for (const mayLeave of ['nothing', 'measuring', 'unknowns'] as const)
          for (const atMost of [0, 1, 2]) {
            const options = { ...constraints, mayLeave, atMost };
            const anew = completeBuild(compileAtlas(atlas.data), of, options, { limit: 100_000 });
            expect(completeBuild(atlas, of, options, { limit: 100_000 }), `seed ${seed}, ${mayLeave}, ${atMost}`).toEqual(anew);
            if (JSON.stringify(anew.builds) !== JSON.stringify(once.builds)) told += 1;
          }
    }
    expect(told, 'what is asked tells').toBeGreaterThan(100);
  });

  test('[K1] a search that was stopped says so, and one that was not says that these are all', () => {
    const whole = found.map(({ complete, stopped }) => [complete, stopped]);
    expect(new Set(whole.map(String))).toEqual(new Set(['true,']));
    const at = found.findIndex(({ looked, builds }) => looked > 10 && builds.length > 1);
    const { atlas, sheet, constraints } = asked[at] as Start;
    const hasty = completeBuild(atlas, sheet, constraints, { choices: 3 });
    expect([hasty.complete, hasty.stopped]).toEqual([false, 'too many choices']);
    const short = completeBuild(atlas, sheet, constraints, { limit: 1 });
    expect([short.complete, short.stopped, short.builds.length]).toEqual([false, 'too many builds', 1]);
    const given = completeBuild(atlas, sheet, constraints, { stride: 1, isCancelled: () => true });
    expect([given.complete, given.stopped]).toEqual([false, 'cancelled']);
  });

  test('[N3] a name to keep stands for every build found, and is missing from none that could bear it', () => {
    let kept = 0;
    asked.slice(0, 90).forEach(({ seed, atlas, sheet, constraints }, i) => {
      const keep = found[i]?.builds[0]?.names[0]?.id;
      if (keep === undefined || !atlas.names.some(({ name }) => name.id === keep)) return;
      const within = { ...constraints, keep };
      const told = completeBuild(atlas, sheet, within, { limit: 100_000 }).builds;
      const there = buildsByHand(atlas, sheet, within);
      expect([...new Set(told.flatMap(spread))].sort(), `seed ${seed}`).toEqual(
        [...new Set(there.map((each) => line(each.chosen, worth(each))))].sort(),
      );
      kept += told.length;
    });
    expect(kept).toBeGreaterThan(20);
  });
});
