import { describe, expect, it } from 'vitest';
import {
  type Advice,
  type Atlas,
  adviceOf,
  type CompiledAtlas,
  checkEffects,
  compileAtlas,
  nextCheck,
  type Odds,
  oddsOf,
  type Sheet,
} from '../../../reasoner/index.ts';
import { blades, littleAtlas, marked, sheetOf } from '../reasoner/little-atlas.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const advise = (atlas: CompiledAtlas, sheet: Sheet): Advice => {
  const advised = adviceOf(atlas, sheet);
  if (advised === null) throw new Error('the sheet contradicts itself');
  return advised.advice;
};
const oddsFor = (atlas: CompiledAtlas, sheet: Sheet): Odds => {
  const odds = oddsOf(atlas, sheet);
  if (odds.kind !== 'odds') throw new Error('the sheet contradicts itself');
  return odds;
};
const demoSheet = (id: string): Sheet => demoPack.sheets.find((sheet) => sheet.id.startsWith(id)) as Sheet;
const little = compileAtlas(littleAtlas);
/** As a shop begins: two models, and of each no more than its wheel. */
const begun = compileAtlas({
  ...littleAtlas,
  models: littleAtlas.models
    .filter(({ patternOf }) => patternOf === null)
    .map((model) => ({ ...model, allowed: model.allowed.filter(({ slot }) => slot === ('wheel' as never)) })),
} as Atlas);
/** One model, all of it listed. */
const alone = compileAtlas({ ...littleAtlas, models: littleAtlas.models.slice(0, 1) } as Atlas);
const claiming = (claimed: string, ...entries: Parameters<typeof sheetOf>[0]): Sheet => ({ ...sheetOf([...entries]), claimed });

describe('what the odds are among', () => {
  it('[Q1] nothing entered: no name is given, however likely it would be', () => {
    for (const atlas of [little, alone, demo]) {
      const right = oddsFor(atlas, sheetOf([])).ifRight;
      expect(right).toMatchObject({ among: { kind: 'nothing entered' }, names: [], namesAlike: 0, namesRest: 0 });
      expect(right?.among.sentence).toContain(String(atlas.data.models.length === 1 ? 'the one model' : atlas.data.models.length));
    }
    // An empty slot tells something.
    expect(oddsFor(little, { ...sheetOf([]), absent: ['plate'] } as never).ifRight?.among.kind).toBe('names');
  });

  it('[Q1] an atlas in which no name can stand gives a list of parts no odds', () => {
    for (const sheet of [sheetOf([]), sheetOf([blades(8)])])
      expect(oddsFor(begun, sheet).ifRight).toMatchObject({ among: { kind: 'no name can stand' }, names: [] });
  });

  it('[Q1] every name ruled out: that is said, and not that a list of parts is all but certain', () => {
    expect(oddsFor(alone, sheetOf([blades(6)])).ifRight).toMatchObject({ among: { kind: 'no name is left' }, names: [] });
    const { among, names } = oddsFor(alone, sheetOf([blades(8)])).ifRight as NonNullable<Odds['ifRight']>;
    const named = names.filter((each) => each.names.length > 0);
    expect(among.sentence).toBe(
      `The entries leave ${named.length} names: how likely each is, and how likely it is that the unit has none.`,
    );
    expect(names.slice(0, 3).map(({ text, stands }) => [text, stands])).toEqual([
      ['Quayside Cod 1', false],
      ['all parts of Quayside Cod 1, nameplate not yet looked at', true],
      ['no name: a list of parts', true],
    ]);
  });

  it('[Q1] a model whose full name is ruled out is called by what is left of its names', () => {
    const sheet = demoSheet('s07');
    const kept = new Set(['backplate-ribs', 'turbine-wheel-blades', 'turbine-housing-cast-mark', 'nameplate-year']);
    const odds = oddsFor(demo, { ...sheet, observations: sheet.observations.filter(({ feature }) => kept.has(feature)) });
    const texts = odds.ifRight?.names.map(({ text }) => text) ?? [];
    expect(texts).toContain('Merrowby Petrel 13 Cartridge, catalogued options aside');
    expect(texts).not.toContain('Merrowby Petrel 13 Cartridge');
  });
});

describe('what to do next', () => {
  it('[Q1] no name can stand: one may stop, and is told why', () => {
    expect(advise(begun, sheetOf([]))).toEqual({
      kind: 'stop',
      sentence: 'You may stop: whatever you look at, no name can stand yet. The atlas lists the whole core of no model.',
      doubt: null,
    });
  });

  it('[Q1] no check tells of the name, and one could still rule out the claim: it is offered', () => {
    const sheet = claiming('Cod 1');
    expect(nextCheck(begun, sheet, oddsFor(begun, sheet))).toBeNull();
    expect(advise(begun, sheet)).toMatchObject({
      kind: 'look',
      brief: 'Measure the bore of the compressor housing',
      check: { drop: 0, openingMinutes: 0 },
      settles: 'If it reads above 45.85 mm, Cod 1 is out; if below 45.85 mm, it stays open.',
      towards: 'Looking further could still rule out the claim.',
    });
  });

  it('[Q1] [O7] everything against the claim rests on one entry: that is read again before one stops, however unlikely it is to be wrong', () => {
    const once = claiming('Cod 1', blades(6));
    expect(advise(begun, once)).toMatchObject({
      kind: 'read again',
      brief: 'Read again: the blades of the compressor wheel',
      settles: 'If it reads the same, you may stop; if 8 blades, Cod 1 is open again.',
    });
    const twice = claiming('Cod 1', blades(6), { ...blades(6), id: 'again' as never });
    expect(advise(begun, twice).kind).toBe('stop');
  });

  it('[Q1] an entry likely to be wrong is read again before one stops, where it would change the name; one that would change nothing is not', () => {
    const sheet = demoSheet('s19');
    const advice = advise(demo, sheet);
    expect(advice).toMatchObject({
      kind: 'read again',
      how: 'Read again: the water ports of the bearing housing, entered as not there.',
    });
    expect('settles' in advice && advice.settles).toMatch(
      /^If it reads the same, you may stop; if it is there, core of Merrowby Petrel 13 Cartridge .* (is|are) open again/,
    );
  });

  it('[Q1] one may stop: no check is offered beside it, though some are left', () => {
    const sheet = demoSheet('s07');
    expect(oddsFor(demo, sheet).checks.length).toBeGreaterThan(0);
    expect(advise(demo, sheet)).toEqual({
      kind: 'stop',
      sentence: 'You may stop: no check still to be made could change the honest name or the claim.',
      doubt: null,
    });
    const { claimed: _, ...unclaimed } = sheet;
    expect(advise(demo, unclaimed as Sheet)).toMatchObject({
      sentence: 'You may stop: no check still to be made could change the honest name.',
    });
  });

  it('[Q1] nothing is left to look at: that is why', () => {
    const unseen = littleAtlas.features.map(({ id, slot }) => ({ slot, feature: id, why: 'could not see' }));
    expect(advise(little, { ...sheetOf([]), unseen } as never)).toMatchObject({
      kind: 'stop',
      sentence: 'You may stop: all there is to look at has been looked at or set aside.',
    });
  });

  it('[Q1] a check that settles nothing by itself says so, and what all of them together could come to', () => {
    expect(advise(alone, sheetOf([]))).toMatchObject({
      settles: 'By itself it settles nothing. Looking further could still make it Quayside Cod 1.',
    });
  });
});

describe('what a check would settle', () => {
  const settles = (sheet: Sheet, feature: string): string | undefined => checkEffects(little, sheet, feature as never)?.settles;

  it('[Q1] the claim first, what changes it before what does not', () => {
    expect(settles(claiming('Cod 1'), 'wheel.bore')).toBe('If it is “7 mm”, Cod 1 is out; if “6 mm”, it stays open.');
    expect(settles(claiming('Cod 1'), 'wheel.blades')).toMatch(/^If there are 7 blades, 6 blades or another number, /);
    const plate = claiming('Cod 1', blades(8));
    expect(settles(plate, 'plate.number')).toBe('If it reads “4-40”, Cod 1 stands; if “5-50”, no letters or other letters, it is out.');
    const out = claiming('Cod 1', blades(6), marked('plate.number', '5-50'));
    expect(settles(out, 'shaft.end')).not.toContain('Cod 1');
  });

  it('[Q1] nothing claimed: the honest name, else how many names are left', () => {
    expect(settles(sheetOf([]), 'wheel.bore')).toMatch(/^If it is “6 mm”, the honest name is all parts of Quayside Cod 1, .*; if “7 mm”, /);
    expect(settles(sheetOf([]), 'plate.number')).toMatch(/is left|are left/);
  });

  it('[Q1] a claim the atlas does not list falls with what its words promise, and that is told as of any other', () => {
    const effects = demoPack.sheets.flatMap((sheet) => {
      const advised = sheet.kind === 'found' ? adviceOf(demo, sheet) : null;
      if (advised === null || !('check' in advised.advice)) return [];
      const own = checkEffects(demo, sheet, advised.advice.check.feature);
      return own === null ? [] : [{ claimed: sheet.claimed, own }];
    });
    expect(effects.length).toBeGreaterThan(10);
    for (const { claimed, own } of effects)
      for (const { claim } of own.outcomes) expect(claim === null).toBe((claimed ?? '').trim() === '');
  });
});
