import { describe, expect, it } from 'vitest';
import {
  type Check,
  checkEffects,
  type IfRight,
  type Odds,
  oddsOf,
  planChecks,
  type Sheet,
  startingAssumptions,
} from '../../../reasoner/index.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const sheetOf = (id: string): Sheet => {
  const found = demoPack.sheets.find((sheet) => sheet.id === id);
  if (found === undefined) throw new Error(`the demo pack has no sheet ${id}`);
  return found;
};
const oddsFor = (sheet: Sheet, assumptions = startingAssumptions): Odds => {
  const odds = oddsOf(demo, sheet, assumptions);
  if (odds.kind !== 'odds') throw new Error(`${sheet.id} contradicts itself`);
  return odds;
};
const ifRight = (sheet: Sheet): IfRight => {
  const right = oddsFor(sheet).ifRight;
  if (right === null) throw new Error(`${sheet.id} cannot be right`);
  return right;
};
const untouched: Sheet = { ...sheetOf('s12-housing-of-five-families'), observations: [], absent: [], unseen: [] };
const stageOf = ({ feature }: Check) => demo.features.get(feature)?.stage;

describe('what it is likely to be', () => {
  it('[Q1] a unit nobody has looked at: every model alike, and the first looks cost no strip-down', () => {
    const odds = oddsFor(untouched);
    const { built, builtAlike, slots } = ifRight(untouched);
    const each = (1 - startingAssumptions.stranger) / demo.data.models.length;
    // A model the atlas does not list has its own share, however large the atlas is.
    expect(built[0]).toMatchObject({ model: null, chance: expect.closeTo(startingAssumptions.stranger, 12) });
    for (const { chance } of built.slice(1)) expect(chance).toBeCloseTo(each, 12);
    expect(builtAlike).toBe(1);
    expect(odds.ifWrong).toBeNull();
    expect(odds.checks.slice(0, 5).map(stageOf)).toEqual(Array(5).fill('as-received'));
    expect(slots.every(({ covered }) => covered === null)).toBe(true);
  });

  it('[Q1] a true Petrel 11 Cartridge looked over thoroughly is one, almost surely, and hardly anything is left to ask', () => {
    const odds = oddsFor(sheetOf('s07-true-petrel'));
    expect(ifRight(sheetOf('s07-true-petrel')).names[0]).toMatchObject({ names: ['service:petrel-11-cartridge'] });
    expect(ifRight(sheetOf('s07-true-petrel')).names[0]?.chance).toBeGreaterThan(0.99);
    expect(odds.checks.every(({ drop }) => drop < 0.02)).toBe(true);
  });

  it('[Q1] names that nothing seen tells apart are equally likely, and counted as such; so are parts and models', () => {
    const sheet = sheetOf('s01-petrel-13-claim');
    const { names, namesAlike, built, builtAlike, slots } = ifRight(sheet);
    const alike = (list: readonly { chance: number }[]) => list.filter(({ chance }) => chance > 0.999 * (list[0]?.chance as number)).length;
    expect(namesAlike).toBe(3);
    expect(names.slice(0, 3).every(({ text }) => text.startsWith('pattern part core'))).toBe(true);
    expect(alike(names)).toBe(3);
    expect(names[3]?.chance).toBeLessThan(0.9 * (names[0]?.chance as number));
    expect(builtAlike).toBe(alike(built));
    for (const { parts, alike: own } of slots) expect(own).toBe(alike(parts));
  });

  it('[Q1] a Petrel housing on a nameless core: most likely a pattern core, and the claimed model hardly at all', () => {
    const { names } = ifRight(sheetOf('s01-petrel-13-claim'));
    expect(names[0]?.text).toMatch(/^pattern part core/);
    expect(
      names.filter(({ names: met }) => met.includes('service:petrel-13-cartridge' as never)).reduce((sum, { chance }) => sum + chance, 0),
    ).toBeLessThan(0.01);
  });

  it('[Q1] an honest hybrid is the core of a Gannet 12, whatever its housings', () => {
    expect(ifRight(sheetOf('s14-honest-hybrid')).names[0]).toMatchObject({ text: expect.stringMatching(/^core of Merrowby Gannet 12/) });
  });

  it('[Q1] [O6] readings that cannot both hold are reported before any odds', () => {
    expect(oddsOf(demo, sheetOf('s10-two-counts')).kind).toBe('contradiction');
    expect(planChecks(demo, sheetOf('s10-two-counts'))).toBeNull();
  });

  it('[Q1] one who takes every reading as right and every part as the maker’s is told when that cannot be', () => {
    const plain = sheetOf('s02-plate-moved');
    const sheet = {
      ...plain,
      observations: plain.observations.map((one) =>
        one.slot === 'turbine-wheel' ? { ...one, value: { kind: 'count' as const, from: 23, to: 23 } } : one,
      ),
    };
    expect(() => oddsOf(demo, sheet, { stranger: 0, swapped: 0, unlisted: 0, misfit: 0, slip: 0 })).toThrow(/allow for slips/);
    expect(() => oddsOf(demo, sheet, { ...startingAssumptions, slip: 1.5 })).toThrow(/“slip”: found 1.5, expected a share from 0 to 1/);
  });
});

describe('what to look at next', () => {
  it('[Q1] each next look taken as the true unit would show it names an untouched Petrel 11 Cartridge in four, without any strip-down', () => {
    const truth = sheetOf('s07-true-petrel');
    let sheet = untouched;
    const asked: string[] = [];
    for (let i = 0; i < 4; i += 1) {
      // The next check of those the sheet of the true unit answers.
      const next = oddsFor(sheet).checks.find(({ feature }) => truth.observations.some((each) => each.feature === feature));
      const seen = truth.observations.find(({ feature }) => feature === next?.feature);
      if (seen === undefined) break;
      asked.push(stageOf(next as Check) as string);
      sheet = { ...sheet, observations: [...sheet.observations, seen] };
    }
    expect(asked).toEqual(Array(4).fill('as-received'));
    expect(ifRight(sheet).names[0]).toMatchObject({ names: ['service:petrel-11-cartridge'] });
    expect(ifRight(sheet).names[0]?.chance).toBeGreaterThan(0.8);
  });

  it('[Q1] a core that may not be stripped: nothing behind it is asked, what is in sight still is', () => {
    const sheet = sheetOf('s21-readings-that-wander');
    const inside = oddsFor(sheet).checks.find((check) => stageOf(check) === 'core-stripped') as Check;
    const kept: Sheet = { ...sheet, unseen: [{ slot: inside.slot, feature: inside.feature, why: 'may not be opened' }] };
    const after = oddsFor(kept).checks;
    expect(after.filter((check) => ['core-stripped', 'cut-or-sectioned'].includes(stageOf(check) as string))).toEqual([]);
    expect(after.length).toBeGreaterThan(0);
    expect(ifRight(kept)).toEqual(ifRight(sheet));
  });

  it('[Q1] a unit as received needs no opening to be looked at, and refusing one look at it bars nothing else', () => {
    const before = oddsFor(untouched).checks;
    expect(before.filter((check) => stageOf(check) === 'as-received').every(({ opening }) => opening.length === 0)).toBe(true);
    const first = before[0] as Check;
    const after = oddsFor({ ...untouched, unseen: [{ slot: first.slot, feature: first.feature, why: 'may not be opened' }] }).checks;
    expect(after).toHaveLength(before.length - 1);
  });

  it('[Q1] what each reading would do is said: one rules names out, one would be of no listed part', () => {
    const sheet = sheetOf('s15-one-head-two-shafts');
    const check = oddsFor(sheet).checks[0] as Check;
    const effects = checkEffects(demo, sheet, check.feature);
    if (effects === null) throw new Error('no effects');
    expect(effects.how).toMatch(/\.$/);
    expect(effects.outcomes.reduce((sum, { chance }) => sum + chance, effects.rest)).toBeCloseTo(1, 6);
    expect(effects.outcomes.some(({ rulesOut }) => rulesOut.length > 0)).toBe(true);
    expect(checkEffects(demo, sheet, sheet.observations[0]?.feature as never)).toBeNull();
  });

  it('[Q1] a short plan: its checks are those of the order, its minutes the mean over its readings', () => {
    const sheet = sheetOf('s11-one-shaft-three-heads');
    const plan = planChecks(demo, sheet);
    if (plan?.kind !== 'check') throw new Error('no plan');
    expect(plan.check).toEqual(oddsFor(sheet).checks[0]);
    const followed = plan.branches.reduce((sum, { chance }) => sum + chance, 0);
    const later = plan.branches.reduce((sum, { chance, after }) => sum + chance * after.expectedMinutes, 0) / followed;
    expect(plan.expectedMinutes).toBeCloseTo(plan.check.minutes + plan.check.openingMinutes + later, 9);
    expect(followed + plan.rest).toBeCloseTo(1, 9);
  });
});
