import { describe, expect, test } from 'vitest';
import {
  type BuildsCell,
  type BuildsRow,
  type ComparedBuilds,
  type CompiledAtlas,
  type CompletedBuild,
  compareBuilds,
  compileAtlas,
  completeBuild,
  type PartId,
  type Plan,
  type PlannedSheet,
  planBuild,
  type Sheet,
  type SlotId,
} from '../../../reasoner/index.ts';
import { randomBuild } from '../../oracle/random-build.ts';
import { demo, demoAtlas, demoPack } from '../seed/demo-atlas.ts';

const ground = (start: string) => {
  const found = demoPack.sheets.find(({ id }) => id.startsWith(`${start}-`));
  if (found === undefined) throw new Error(`no sheet ${start}`);
  return found;
};

interface How {
  readonly chosen?: Readonly<Record<string, string | undefined>>;
  readonly absent?: readonly string[];
  readonly stock?: readonly PartId[];
  readonly works?: CompletedBuild['works'];
  readonly atlas?: CompiledAtlas;
}

const planned = (start: string, { chosen = {}, absent = [], stock = [], works, atlas = demo }: How = {}): PlannedSheet => {
  const of = ground(start);
  const all = Object.entries({ ...of.chosen, ...chosen }).filter(([, part]) => part !== undefined);
  const sheet = { ...of, chosen: Object.fromEntries(all) as Record<SlotId, PartId>, absent: absent as SlotId[] };
  const plan = planBuild(atlas, sheet, { stock, ...(works === undefined ? {} : { works }) });
  if (plan.kind !== 'plan') throw new Error(`${start} contradicts itself`);
  return { sheet, plan };
};

const rowIn = (told: ComparedBuilds, group: BuildsRow['group'], what: string): BuildsRow => {
  const found = told.rows.find((row) => row.group === group && row.what === what);
  if (found === undefined) throw new Error(`no row ${group}: ${what}`);
  return found;
};
const cellsOf = (told: ComparedBuilds, group: BuildsRow['group'], what: string): readonly BuildsCell[] => rowIn(told, group, what).cells;

const housing = 'compressor-housing';
const alder = planned('s24');
const own = planned('s24', { chosen: { [housing]: 'merrowby-tern-7-compressor-housing' } });
const without = planned('s24', { chosen: { [housing]: undefined } });

/** The demo world without the prices of some parts. */
const unpriced = (...parts: readonly string[]): CompiledAtlas =>
  compileAtlas({
    ...demoAtlas,
    rates: (demoAtlas.rates ?? []).map((rates) => ({ ...rates, parts: rates.parts.filter(({ part }) => !parts.includes(part)) })),
  });

describe('[F4] builds side by side', () => {
  const told = compareBuilds(demo, [alder, own, alder]);

  test('[F4] builds that are all the same differ in nothing, and each thing is said once', () => {
    const { differences, notKnown, rows } = compareBuilds(demo, [alder, alder, alder]);
    expect({ differences, notKnown }).toEqual({ differences: 0, notKnown: 0 });
    for (const { alike, least, what } of rows) {
      expect(alike, what).toEqual([0, 0, 0]);
      expect(least, what).toEqual([]);
    }
  });

  test('[F4] what differs stands first, what is not known to differ next, what is the same last, and all are counted', () => {
    const { rows, differences, notKnown } = compareBuilds(demo, [alder, own, without]);
    const order = rows.map(({ same }) => ['fails', 'not known', 'holds'].indexOf(same));
    expect(order).toEqual(order.toSorted());
    expect(differences).toBe(order.filter((at) => at === 0).length);
    expect(notKnown).toBe(order.filter((at) => at === 1).length);
    expect(differences * notKnown).toBeGreaterThan(0);
    expect(order).toContain(2);
  });

  test('[F4] the same core under another housing: name, verdict, part, joint and hours differ, the shaft does not', () => {
    expect(told.rows.filter(({ same }) => same === 'not known')).toEqual([]);
    expect(cellsOf(told, 'the whole', 'goes together')).toMatchObject([{ verdict: 'after work' }, { verdict: 'drops in' }, {}]);
    expect(cellsOf(told, 'parts', 'compressor housing')[0]).toMatchObject({ text: 'Tarnwick Alder III compressor housing, machined' });
    expect(rowIn(told, 'parts', 'compressor housing')).toMatchObject({ same: 'fails', alike: [0, 1, 0] });
    expect(rowIn(told, 'the whole', 'may be called').same).toBe('fails');
    expect(cellsOf(told, 'the whole', 'hours of machining')).toMatchObject([{ amount: alder.plan.cost.hours }, { amount: 0 }, {}]);
    expect(rowIn(told, 'the whole', 'hours of machining').least).toEqual([1]);
    expect(rowIn(told, 'parts', 'shaft')).toMatchObject({ same: 'holds', alike: [0, 0, 0] });
    const { cost, works } = alder.plan;
    expect(cellsOf(told, 'cost', 'operations')).toMatchObject([{ amount: works.length }, { amount: 0 }, {}]);
    expect(cellsOf(told, 'cost', 'machining')).toMatchObject([{ amount: cost.labour, money: cost.money }, { amount: 0 }, {}]);
    expect(cellsOf(told, 'cost', 'parts without a price')).toMatchObject([{ amount: 0 }, { amount: 0 }, {}]);
    expect(cellsOf(told, 'cost', 'parts to buy')[0]).toMatchObject({ amount: cost.parts.length });
  });

  test('[F4] a joint says what must be machined, to what size and by how much', () => {
    const [worked, drops] = cellsOf(told, 'joints', 'compressor housing on backplate');
    const work = alder.plan.works.find(({ operation }) => operation === 'open-compressor-recess');
    expect(worked).toMatchObject({
      verdict: 'after work',
      works: [{ operation: 'open-compressor-recess', slot: housing, hours: work?.hours }],
      point: null,
    });
    const [size] = (worked?.kind === 'fit' && worked.works[0]?.sizes) || [];
    expect(size).toEqual({
      feature: work?.sizes[0]?.feature,
      nominal: work?.sizes[0]?.nominal,
      lower: work?.sizes[0]?.lower,
      upper: work?.sizes[0]?.upper,
      removes: work?.sizes[0]?.removes,
    });
    expect(drops).toEqual({ kind: 'fit', verdict: 'drops in', works: [], point: null, missing: [], soFar: false });
  });

  test('[F4] a joint that will not fit says what decides it', () => {
    const [, fouls] = cellsOf(compareBuilds(demo, [alder, planned('s25')]), 'joints', 'compressor wheel in its contour');
    expect(fouls).toMatchObject({ verdict: 'will not fit', works: [] });
    // Of a joint whose first comparison is right, the one that is not.
    const wide = planned('s23', { chosen: { [housing]: 'merrowby-fulmar-14-compressor-housing' } });
    const [at] = wide.plan.joints
      .flatMap(({ verdict, after }) => (verdict === 'will not fit' ? [after.findings.flatMap(({ points }) => points)] : []))
      .filter((points) => points[0]?.verdict !== 'will not fit');
    const second = at?.find(({ verdict }) => verdict === 'will not fit');
    const [wideCell] = cellsOf(compareBuilds(demo, [wide, alder]), 'joints', 'compressor wheel in its contour');
    expect(wideCell?.kind === 'fit' && wideCell.point?.found).toEqual(second?.found);
    expect(second?.found).toBeTruthy();
    const deciding = planned('s25')
      .plan.joints.find(({ verdict }) => verdict === 'will not fit')
      ?.after.findings.flatMap(({ points }) => points)
      .filter(({ verdict }) => verdict === 'will not fit')[0];
    expect(fouls?.kind === 'fit' && fouls.point).toEqual({
      what: deciding?.what,
      features: deciding?.features,
      found: deciding?.found,
      asked: deciding?.asked,
      share: deciding?.share,
    });
  });

  test('[F4] in another order, the columns change places and nothing else', () => {
    const back = compareBuilds(demo, [own, without, alder]);
    const there = compareBuilds(demo, [alder, own, without]);
    const said = ({ rows }: ComparedBuilds, order: readonly number[]) =>
      rows
        .map(({ group, what, same, cells, least }) =>
          JSON.stringify([group, what, same, order.map((at) => [cells[at], least.includes(at), cells.filter((one) => one === cells[at])])]),
        )
        .toSorted();
    expect(said(back, [2, 0, 1])).toEqual(said(there, [0, 1, 2]));
    const warned = ({ cautions }: ComparedBuilds, order: readonly number[]) =>
      cautions
        .map(({ text, of }) => JSON.stringify([text, order.filter((at) => of.includes(at)).map((at) => order.indexOf(at))]))
        .toSorted();
    expect(warned(back, [2, 0, 1])).toEqual(warned(there, [0, 1, 2]));
  });

  test('[F4] an atlas without chains or operations compares what it has', () => {
    const { chains: _, operations: __, ...rest } = demoAtlas;
    const bare = compileAtlas({ ...rest, rates: [] });
    const here = compareBuilds(bare, [planned('s24', { atlas: bare }), planned('s23', { atlas: bare })]);
    expect(here.rows.some(({ group }) => group === 'stacks of lengths')).toBe(false);
    expect(rowIn(here, 'the whole', 'total')).toMatchObject({ same: 'not known', cells: [{ why: 'no rates' }, { why: 'no rates' }] });
  });
});

describe('[F4] what is not known is neither same nor different', () => {
  test('[F4] a slot not chosen yet may come to be the same as any other; what is left out on purpose is known to be nothing', () => {
    const told = compareBuilds(demo, [alder, without]);
    expect(rowIn(told, 'parts', 'compressor housing')).toMatchObject({ same: 'not known', alike: [0, null] });
    expect(cellsOf(told, 'parts', 'compressor housing')[1]).toEqual({ kind: 'open', why: 'not chosen yet' });
    expect(cellsOf(told, 'joints', 'compressor housing on backplate')[1]).toEqual({ kind: 'open', why: 'waits for a part' });
    const bare = planned('s24', { chosen: { [housing]: undefined }, absent: [housing] });
    expect(rowIn(compareBuilds(demo, [alder, bare]), 'parts', 'compressor housing').same).toBe('fails');
    const left = compareBuilds(demo, [alder, bare, own]);
    expect(cellsOf(left, 'parts', 'compressor housing')[1]).toEqual({ kind: 'nothing' });
    const looks = left.rows.filter(({ group }) => group === 'sizes and looks');
    expect(looks.length).toBeGreaterThan(0);
    for (const { cells, alike } of looks) expect([cells[1], alike[1]]).toEqual([{ kind: 'nothing' }, 1]);
    expect(cellsOf(left, 'the whole', 'hours of machining')[1]).toMatchObject({ open: false });
    const noPlate = planned('s24', { chosen: { nameplate: undefined }, absent: ['nameplate'] });
    expect(cellsOf(compareBuilds(demo, [alder, noPlate]), 'parts', 'nameplate')[1]).toEqual({ kind: 'nothing' });
    expect(rowIn(compareBuilds(demo, [without, without]), 'parts', 'compressor housing')).toMatchObject({
      same: 'not known',
      alike: [null, null],
    });
  });

  test('[F4] one sure difference decides, whatever else is not known', () => {
    const told = compareBuilds(demo, [alder, without, own]);
    expect(rowIn(told, 'parts', 'compressor housing')).toMatchObject({ same: 'fails', alike: [0, null, 2] });
  });

  test('[F4] what drops in so far, with joints that wait, is not the same as what drops in; what will not fit stays so', () => {
    const told = compareBuilds(demo, [own, without]);
    expect(rowIn(told, 'the whole', 'goes together')).toMatchObject({
      same: 'not known',
      cells: [
        { verdict: 'drops in', soFar: false },
        { verdict: 'drops in', soFar: true },
      ],
    });
    const fouls = planned('s25', { chosen: { 'turbine-housing': undefined } });
    expect(rowIn(compareBuilds(demo, [own, fouls]), 'the whole', 'goes together').same).toBe('fails');
  });

  test('[F4] two joints that are not known are not the same for it, and say what is missing', () => {
    const wheel = { [housing]: undefined, 'compressor-wheel': undefined };
    const start = planned('s24', { chosen: wheel });
    const open = completeBuild(demo, start.sheet, { mayLeave: 'unknowns' }).builds.find((build) => build.open > 0);
    if (open === undefined) throw new Error('the demo world has no such build');
    const doubtful = planned('s24', { chosen: open.chosen, works: open.works });
    const told = compareBuilds(demo, [doubtful, doubtful]);
    const joints = told.rows.filter(({ group, same }) => group === 'joints' && same === 'not known');
    expect(joints.length).toBe(open.open);
    for (const { cells } of joints) {
      for (const cell of cells) {
        if (cell.kind !== 'fit') throw new Error('a joint is judged');
        expect(cell.missing.length).toBeGreaterThan(0);
        expect(new Set(cell.missing).size).toBe(cell.missing.length);
      }
    }
    expect(cellsOf(told, 'the whole', 'total')[0]).toMatchObject({ open: true });
  });
});

describe('[F4] sums side by side', () => {
  const total = (...builds: readonly PlannedSheet[]): BuildsRow => rowIn(compareBuilds(demo, builds), 'the whole', 'total');
  const alderPart = 'tarnwick-alder-iii-compressor-housing' as PartId;
  const ownPart = 'merrowby-tern-7-compressor-housing' as PartId;

  test('[F4] a price that is not known makes a sum at least so much, never nought', () => {
    const atlas = unpriced(alderPart);
    const dear = planned('s24', { atlas });
    expect(cellsOf(compareBuilds(atlas, [dear, own]), 'the whole', 'total')[0]).toMatchObject({
      amount: dear.plan.cost.atLeast,
      without: [alderPart],
      open: false,
    });
    expect(cellsOf(compareBuilds(atlas, [dear, own]), 'parts', 'compressor housing')[0]).toMatchObject({ from: 'bought', price: null });
  });

  test('[F4] what is surely more though it lacks a price differs; what may come to the same is not known', () => {
    const atlas = unpriced(alderPart);
    const dear = planned('s24', { atlas });
    const cheap = planned('s24', { atlas, chosen: { [housing]: ownPart }, stock: [ownPart] });
    expect((dear.plan.cost.atLeast ?? 0) > (cheap.plan.cost.atLeast ?? 0)).toBe(true);
    expect(total(dear, cheap)).toMatchObject({ same: 'fails', least: [1] });
    const dearer = planned('s24', { atlas, chosen: { [housing]: ownPart, 'turbine-housing': 'merrowby-tern-2-turbine-housing-12' } });
    const none = planned('s24', {
      atlas: unpriced(alderPart),
      stock: alder.plan.cost.parts.flatMap(({ part }) => (part === alderPart ? [] : [part])),
    });
    expect((none.plan.cost.atLeast ?? 0) < (dearer.plan.cost.atLeast ?? 0)).toBe(true);
    expect(total(none, dearer)).toMatchObject({ same: 'not known', least: [] });
  });

  test('[F4] prices that both lack cancel out; of prices that only the other lacks nothing is said', () => {
    const atlas = unpriced('merrowby-journal-shaft');
    const [one, other] = [planned('s24', { atlas }), planned('s24', { atlas, chosen: { [housing]: ownPart } })];
    expect(total(one, other)).toMatchObject({ same: 'fails', least: [1] });
    expect(total(one, one)).toMatchObject({ same: 'holds', alike: [0, 0], least: [] });
    const both = unpriced(alderPart, ownPart);
    expect(total(planned('s24', { atlas: both }), planned('s24', { atlas: both, chosen: { [housing]: ownPart } }))).toMatchObject({
      same: 'not known',
      least: [],
    });
  });

  test('[F4] a sum with a slot still open is no sum: it is more than another where it is already, and never less', () => {
    expect(cellsOf(compareBuilds(demo, [own, without]), 'the whole', 'hours of machining')).toMatchObject([
      { amount: 0, open: false },
      { amount: 0, open: true },
    ]);
    expect(rowIn(compareBuilds(demo, [own, without]), 'the whole', 'hours of machining')).toMatchObject({ same: 'not known', least: [0] });
    expect(total(own, without)).toMatchObject({ same: 'not known', least: [] });
    expect(total(without, without).same).toBe('not known');
    const warmAndDear = planned('s24', { chosen: { 'turbine-housing': undefined } });
    expect(rowIn(compareBuilds(demo, [own, warmAndDear]), 'the whole', 'hours of machining')).toMatchObject({ same: 'fails', least: [0] });
    // A nameplate is nothing a shop adds: without one a build is whole.
    const bare = planned('s24', { chosen: { nameplate: undefined } });
    expect(cellsOf(compareBuilds(demo, [bare, own]), 'the whole', 'total')[0]).toMatchObject({ open: false });
    expect(cellsOf(compareBuilds(demo, [bare, own]), 'parts', 'nameplate')[0]).toEqual({
      kind: 'texts',
      texts: ['only the maker issues one'],
    });
  });

  test('[F4] parts from stock are said to be, and cost nothing more; where stock is not known no part is counted', () => {
    const kept = planned('s24', { stock: [alderPart] });
    const [here, there] = cellsOf(compareBuilds(demo, [kept, alder]), 'parts', 'compressor housing');
    expect(here).toMatchObject({ from: 'stock', price: null });
    expect(there).toMatchObject({ from: 'bought', price: alder.plan.cost.parts.find(({ part }) => part === alderPart)?.price });
    const blind = compareBuilds(demo, [alder, own], { stockKnown: false });
    expect(cellsOf(blind, 'parts', 'compressor housing')[0]).toMatchObject({
      from: null,
      price: (there?.kind === 'part' && there.price) || 0,
    });
    expect(cellsOf(blind, 'the whole', 'total')[0]).toMatchObject({
      amount: alder.plan.cost.labour,
      without: alder.plan.cost.parts.map(({ part }) => part),
    });
    expect(cellsOf(blind, 'cost', 'parts to buy')[0]).toEqual({ kind: 'open', why: 'not known' });
    expect(rowIn(blind, 'the whole', 'total').same).toBe('not known');
  });
});

describe('[F5] cautions of builds side by side', () => {
  test('[F5] no caution is lost: each is said once, with the builds it goes with, those of all first', () => {
    const builds = [alder, own, planned('s26')];
    const told = compareBuilds(demo, builds);
    builds.forEach(({ plan }: { plan: Plan }, i) => {
      const mine = told.cautions.flatMap(({ text, of }) => (of.includes(i) ? [text] : []));
      expect(mine.toSorted()).toEqual([...plan.cautions].toSorted());
    });
    expect(new Set(told.cautions.map(({ text }) => text)).size).toBe(told.cautions.length);
    const many = told.cautions.map(({ of }) => of.length === builds.length);
    expect(many).toContain(false);
    expect(many[0]).toBe(true);
    expect(many.lastIndexOf(true)).toBeLessThan(many.indexOf(false));
  });
});

describe('[A5] sizes and looks of builds side by side', () => {
  test('[A5] of parts that differ each feature is told; a feature the atlas does not know of one of them is neither same nor different', () => {
    const told = compareBuilds(demo, [alder, own, alder]);
    const looks = told.rows.filter(({ group }) => group === 'sizes and looks');
    expect(new Set(looks.map(({ slot }) => slot))).toEqual(new Set([housing]));
    expect(looks.some(({ same }) => same === 'fails')).toBe(true);
    for (const { cells, same, alike, what } of looks) {
      expect(alike[0], what).toBe(alike[2]);
      if (cells.some(({ kind }) => kind === 'open')) expect(same, what).not.toBe('holds');
      expect(
        cells.some(({ kind }) => kind === 'fact'),
        what,
      ).toBe(true);
    }
    const waiting = compareBuilds(demo, [alder, own, without]).rows.find(({ group }) => group === 'sizes and looks');
    expect(waiting?.cells[2]).toEqual({ kind: 'open', why: 'not chosen yet' });
    const feature = looks.find(({ same }) => same === 'holds')?.feature;
    const blind = compileAtlas({
      ...demoAtlas,
      parts: demoAtlas.parts.map((part) =>
        feature != null && part.id === 'merrowby-tern-7-compressor-housing'
          ? { ...part, facts: { ...part.facts, [feature]: { kind: 'not known' } } }
          : part,
      ),
    });
    const less = compareBuilds(blind, [alder, own]);
    const dark = compileAtlas({
      ...demoAtlas,
      parts: demoAtlas.parts.map((part) =>
        feature != null ? { ...part, facts: { ...part.facts, [feature]: { kind: 'not known' } } } : part,
      ),
    });
    expect(compareBuilds(dark, [alder, own]).rows.some((row) => row.feature === feature)).toBe(false);
    expect(less.rows.find((row) => row.feature === feature)).toMatchObject({
      same: 'not known',
      alike: [0, null],
      cells: [{ kind: 'fact' }, { kind: 'open', why: 'not known' }],
    });
  });
});

describe('[J2] a search’s builds, planned with the works the search found', () => {
  const keeps = (atlas: CompiledAtlas, sheet: Sheet, build: CompletedBuild): boolean => {
    const whole = { ...sheet, chosen: build.chosen };
    const [meant, best] = [planBuild(atlas, whole, { works: build.works }), planBuild(atlas, whole)];
    if (meant.kind !== 'plan' || best.kind !== 'plan') throw new Error('it contradicts itself');
    const said = (works: CompletedBuild['works']) => works.map(({ operation, part, joint }) => `${operation} ${part} ${joint}`).toSorted();
    expect(said(meant.works)).toEqual(said(build.works));
    expect(meant.cost.hours).toBeCloseTo(build.hours, 9);
    expect(meant.honest).toEqual(build.names.map(({ id }) => id));
    return said(best.works).join() !== said(build.works).join();
  };

  test('[J2] in the demo world every build of a search keeps its hours, its works and its names side by side', () => {
    for (const start of ['s23', 's24', 's25']) {
      const { sheet } = planned(start, { chosen: { [housing]: undefined, 'compressor-wheel': undefined } });
      for (const build of completeBuild(demo, sheet, { mayLeave: 'unknowns' }).builds) keeps(demo, sheet, build);
    }
  });

  test('[J2] so does every build over made-up atlases, where the best works are others too', () => {
    let others = 0;
    for (let seed = 1; seed <= 40; seed += 1) {
      const { atlas, sheet } = randomBuild(seed, { crossing: true, unpriced: true, constrained: false, most: 100 });
      const compiled = compileAtlas(atlas);
      for (const build of completeBuild(compiled, sheet, { mayLeave: 'unknowns' }, { limit: 20 }).builds) {
        if (keeps(compiled, sheet, build)) others += 1;
      }
    }
    expect(others).toBeGreaterThan(0);
  });
});
