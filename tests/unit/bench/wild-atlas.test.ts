import { expect, test } from 'vitest';
import { emptyAtlas } from '../../../db/atlas/pack.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { checkFiles } from '../../../db/packs/check-pack.ts';
import { filesOf } from '../../../db/packs/read-files.ts';
import { askedForPacks } from '../../../electron/desk/open-house.ts';
import { answer, compileAtlas, fitOf, type Verdict } from '../../../reasoner/index.ts';
import { packOf } from '../../bench/pack-of.ts';
import { wildAtlas } from '../../bench/wild/wild-atlas.ts';
import { wildSheets } from '../../bench/wild/wild-sheets.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';

const wild = wildAtlas(demoAtlas, 317);
const compiled = compileAtlas(wild);

test('[P4] an atlas made by a seed passes the check of a pack, of which the same seed makes the same', async () => {
  const { faults } = await checkFiles(filesOf('wild', canonicalText(packOf(wild))), emptyAtlas, askedForPacks);
  expect(faults).toEqual([]);
  expect(wild.parts.length).toBeGreaterThanOrEqual(317);
  expect(wildAtlas(demoAtlas, 317)).toEqual(wild);
  expect(wildAtlas(demoAtlas, 317, 2).parts[0]).not.toEqual(wild.parts[0]);
});

test('[A1] of its sizes hardly two are the same, and no name, mark or number is one of the atlas it is like', () => {
  for (const { id, kind } of wild.features) {
    const sizes = wild.parts.flatMap(({ facts }) => {
      const fact = facts[id];
      return fact?.kind === 'measure' ? [fact.nominal] : [];
    });
    if (kind === 'measure') expect(new Set(sizes).size, id).toBeGreaterThan(sizes.length - 3);
  }
  const told = JSON.stringify([wild.families, wild.models, wild.parts.map(({ name, numbers }) => [name, numbers])]);
  for (const { name } of [...demoAtlas.families, ...demoAtlas.models]) expect(told).not.toContain(`"${name}"`);
  for (const number of demoAtlas.parts.flatMap(({ numbers }) => numbers)) expect(told).not.toContain(`"${number}"`);
});

test('[J1] what a model lists goes together at every joint, and most other parts do not', () => {
  const slotOf = new Map(wild.ports.map(({ id, slot }) => [id, slot]));
  const dice = new Dice(1);
  for (const joint of wild.joints) {
    const fits = (a: string, b: string) => fitOf(compiled, joint.id, a as never, b as never).verdict !== 'will not fit';
    const [a, b] = [slotOf.get(joint.a), slotOf.get(joint.b)];
    for (const { name, allowed } of wild.models) {
      const [first, second] = [allowed.find(({ slot }) => slot === a), allowed.findLast(({ slot }) => slot === b)];
      if (first !== undefined && second !== undefined) expect(fits(first.part, second.part), `${joint.id} of ${name}`).toBe(true);
    }
    const [as, bs] = [wild.parts.filter(({ slot }) => slot === a), wild.parts.filter(({ slot }) => slot === b)];
    const drawn = Array.from({ length: 200 }, () => fits(dice.one(as).id, dice.one(bs).id));
    expect(drawn.filter((each) => each).length, joint.id).toBeLessThan(100);
  }
});

test('[N1] a unit that is what it says never rules its own model out, and one with parts of others mostly does', () => {
  const sheets = wildSheets(wild, 21);
  const swapped: string[] = [];
  for (const { kind, sheet, model } of sheets) {
    const { names } = answer(compiled, sheet, { explain: 'none' }) as Verdict;
    const own = names.filter(
      ({ name }) => ['model with service parts replaced', 'pattern core'].includes(name.rung) && name.models.includes(model.id),
    );
    const statuses = [...new Set(own.map(({ status }) => status))];
    if (kind.endsWith('swapped')) swapped.push(...statuses);
    else expect(statuses, `${sheet.id}, ${kind}`).not.toContain('ruled out');
  }
  expect(swapped.filter((status) => status === 'ruled out').length).toBeGreaterThan(swapped.length / 2);
});
