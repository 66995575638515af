import { describe, expect, test } from 'vitest';
import {
  compareBuilds,
  compareModels,
  type ModelId,
  type PartId,
  type PlannedSheet,
  planBuild,
  type SlotId,
} from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const planned = (start: string, chosen: Readonly<Record<string, string>> = {}): PlannedSheet => {
  const found = demoPack.sheets.find(({ id }) => id.startsWith(`${start}-`));
  if (found === undefined) throw new Error(`no sheet ${start}`);
  const sheet = { ...found, chosen: { ...found.chosen, ...(chosen as Record<SlotId, PartId>) } };
  const plan = planBuild(demo, sheet);
  if (plan.kind !== 'plan') throw new Error(`${start} contradicts itself`);
  return { sheet, plan };
};

describe('[F4] two builds side by side', () => {
  const alder = planned('s24');
  const own = planned('s24', { 'compressor-housing': 'merrowby-tern-7-compressor-housing' });
  const told = compareBuilds(demo, alder, own);
  const row = (group: string, what: string) => told.rows.find((each) => each.group === group && each.what === what);

  test('[F4] a build held against itself differs in nothing', () => {
    expect(compareBuilds(demo, alder, alder).differences).toBe(0);
  });

  test('[F4] differences stand first and are counted', () => {
    const same = told.rows.map((each) => each.same);
    expect(same).toEqual(same.toSorted((a, b) => Number(a) - Number(b)));
    expect(told.differences).toBe(same.filter((each) => !each).length);
    for (const each of told.rows) expect(each.same, each.what).toBe(each.a === each.b);
  });

  test('[F4] the same core under another housing: name, verdict, part, joints, operations and hours differ, the shaft does not', () => {
    expect(row('verdict', 'goes together')).toMatchObject({ a: 'after work', b: 'drops in' });
    expect(row('parts', 'compressor housing')).toMatchObject({ a: 'Tarnwick Alder III compressor housing, machined', same: false });
    expect(row('joints', 'compressor housing on backplate')).toMatchObject({ a: 'after work', b: 'drops in' });
    expect(row('operations', 'open the backplate recess')).toMatchObject({ b: null, same: false });
    expect(row('cost', 'hours')).toMatchObject({ a: String(alder.plan.cost.hours), b: '0' });
    expect(row('name', 'may be called')?.same).toBe(false);
    expect(row('parts', 'shaft')?.same).toBe(true);
  });

  test('[F4] turned round, the columns change places and nothing else', () => {
    const back = compareBuilds(demo, own, alder);
    expect(back.differences).toBe(told.differences);
    const key = (of: typeof told, swap: boolean) =>
      of.rows.map(({ group, what, a, b }) => `${group}|${what}|${swap ? b : a}|${swap ? a : b}`).toSorted();
    expect(key(back, true)).toEqual(key(told, false));
  });
});

describe('[A3] two models side by side', () => {
  test('[A1] Petrel 17 and Skua 17 Cartridge: the turbine wheel’s blades, and what follows from the name', () => {
    const told = compareModels(demo, 'petrel-17-cartridge' as ModelId, 'skua-17-cartridge' as ModelId);
    const sizes = told.rows.filter(({ group, same }) => group === 'sizes and looks' && !same).map(({ feature }) => feature);
    expect(sizes).toContain('turbine-wheel-blades');
    expect(sizes).not.toContain('turbine-wheel-inducer');
    expect(told.rows.find(({ group, what }) => group === 'name' && what === 'family')?.same).toBe(false);
  });

  test('[A6] a model the atlas does not have is an error', () => {
    expect(() => compareModels(demo, 'petrel-17-cartridge' as ModelId, 'petrel-99' as ModelId)).toThrow(/no model petrel-99/);
  });
});
