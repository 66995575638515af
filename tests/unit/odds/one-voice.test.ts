import { describe, expect, it } from 'vitest';
import {
  type Assumptions,
  answer,
  type CompiledAtlas,
  checkEffects,
  compileAtlas,
  type FeatureId,
  type NameId,
  nextCheck,
  type Observation,
  type Odds,
  oddsOf,
  type Part,
  type Sheet,
  startingAssumptions,
} from '../../../reasoner/index.ts';
import { groundOf } from '../../../reasoner/odds/ground.ts';
import { entriesIn, partChances, posteriorOf } from '../../../reasoner/odds/posterior.ts';
import { atlasOfTable, seeing } from '../../external/odds/table-atlas.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from '../reasoner/little-atlas.ts';
import { demo, demoPack } from '../seed/demo-atlas.ts';

const found = demoPack.sheets.filter((sheet) => sheet.kind === 'found');
const demoSheet = (id: string): Sheet => found.find((sheet) => sheet.id.startsWith(id)) as Sheet;
const oddsFor = (atlas: CompiledAtlas, sheet: Sheet, assumptions: Assumptions = startingAssumptions): Odds => {
  const odds = oddsOf(atlas, sheet, assumptions);
  if (odds.kind !== 'odds') throw new Error(`${sheet.id} contradicts itself`);
  return odds;
};
const certain: Assumptions = { stranger: 0, swapped: 0, unlisted: 0, misfit: 0, slip: 0 };

describe('one voice', () => {
  it('[Q1] of every sample sheet, whole and half entered: no name the verdict rules out is likely if every entry is right', () => {
    let told = 0;
    for (const sheet of found)
      for (const observations of [sheet.observations, sheet.observations.slice(0, sheet.observations.length / 2)]) {
        const entered = { ...sheet, observations };
        const verdict = answer(demo, entered);
        if (verdict.kind === 'contradiction') continue;
        const ruledOut = new Set<NameId>(verdict.names.filter(({ status }) => status === 'ruled out').map(({ name }) => name.id));
        const { ifRight } = oddsFor(demo, entered);
        for (const { names } of ifRight?.names ?? []) {
          expect(names.filter((name) => ruledOut.has(name))).toEqual([]);
          told += names.length;
        }
      }
    expect(told).toBeGreaterThan(50);
  });

  it('[Q1] where the verdict has settled the name, that is the likeliest; a core is called with the housings the verdict says stand with it', () => {
    for (const id of ['s07', 's14']) {
      const verdict = answer(demo, demoSheet(id));
      if (verdict.kind === 'contradiction') throw new Error(`${id} contradicts itself`);
      const honest = verdict.names.find(({ name }) => name.id === verdict.honest[0])?.name;
      expect(honest?.text).toMatch(id === 's07' ? /^Merrowby Petrel 11 Cartridge$/ : /Tarnwick Rowan and its own turbine housing$/);
      expect(oddsFor(demo, demoSheet(id)).ifRight?.names[0]).toMatchObject({ text: honest?.text, chance: expect.closeTo(1, 2) });
    }
    for (const sheet of found) {
      const odds = oddsOf(demo, sheet);
      if (odds.kind === 'odds') expect(JSON.stringify(odds)).not.toContain('other housings');
    }
  });

  it('[Q1] every chance shown lies within 0 and 1, and those of one list add up to no more than 1', () => {
    for (const sheet of found) {
      const odds = oddsOf(demo, sheet);
      if (odds.kind !== 'odds' || odds.ifRight === null) continue;
      const { ifRight, ifWrong } = odds;
      const lists = [ifRight.names, ifRight.built, ...ifRight.slots.map(({ parts }) => parts), ifWrong?.names ?? []];
      for (const list of lists) expect(list.reduce((sum, { chance }) => sum + chance, 0)).toBeLessThanOrEqual(1 + 1e-12);
      const all = [...lists.flat(), ...(ifWrong?.entries ?? [])].map(({ chance }) => chance);
      for (const chance of [...all, ifRight.chance, ifWrong?.chance ?? 0, ifRight.namesRest, ifRight.builtRest]) {
        expect(chance).toBeGreaterThanOrEqual(0);
        expect(chance).toBeLessThanOrEqual(1);
      }
    }
  });
});

/** Two makes of one wheel, each a model’s: `a` looks x and reads p, `b` looks y and reads q. */
const twoWheels = atlasOfTable({
  slots: ['wheel'],
  features: ['look', 'back'].map((id) => ({ id, slot: 'wheel', kind: 'choice', options: id === 'look' ? ['x', 'y'] : ['p', 'q'] })),
  parts: [
    { id: 'a', slot: 'wheel', facts: { look: { kind: 'choice', anyOf: ['x'] }, back: { kind: 'choice', anyOf: ['p'] } } },
    { id: 'b', slot: 'wheel', facts: { look: { kind: 'choice', anyOf: ['y'] }, back: { kind: 'choice', anyOf: ['q'] } } },
  ],
  models: ['a', 'b'].map((id) => ({ id, times: 1, lists: [id] })),
});
const option = (id: string) => ({ kind: 'choice', option: id }) as const;

describe('whether the entries are right', () => {
  const slip = 0.1;

  it('[Q1] P(R) is (1 − s)² · L₀ / L, worked by hand', () => {
    // Of a: both readings truly its own; of b: neither. A slip reads either option alike.
    const odds = oddsFor(twoWheels, seeing(twoWheels, { look: option('x'), back: option('p') }), { ...certain, slip });
    const [ofA, ofB] = [(0.9 + 0.05) ** 2, 0.05 ** 2];
    const right = 0.9 ** 2 / (ofA + ofB);
    expect(odds.ifRight).toMatchObject({ chance: expect.closeTo(right, 12), names: [{ names: ['service:a-0'], chance: 1 }] });
    expect(odds.ifWrong?.chance).toBeCloseTo(1 - right, 12);
    // That the look was a slip: 0.05 of a with its back 0.95, or of b with its back 0.05.
    const slipped = (0.05 * 0.95 + 0.05 * 0.05) / (ofA + ofB);
    for (const { chance } of odds.ifWrong?.entries ?? []) expect(chance).toBeCloseTo(slipped / (1 - right), 12);
  });

  it('[Q1] entries no part agrees with cannot all be right: no odds are given as if they were', () => {
    const odds = oddsFor(twoWheels, seeing(twoWheels, { look: option('x'), back: option('q') }), { ...certain, slip });
    expect(odds.ifRight).toBeNull();
    expect(odds.ifWrong).toMatchObject({ chance: 1 });
    // 0.0475 + 0.0025 of 2 · 0.0475, for either entry; both may be.
    expect(odds.ifWrong?.entries.map(({ chance }) => chance)).toEqual([0.05, 0.05].map((both) => expect.closeTo(both / 0.095, 12)));
  });

  it('[Q1] [O5] a plate that is glued on is seen to be: that entry is not taken for a slip, and its number is still weighed', () => {
    const moved = demoSheet('s02');
    const isFixing = ({ slot, value }: Sheet['observations'][number]): boolean =>
      slot === 'nameplate' && value.kind === 'choice' && value.option === 'glued';
    const { ifRight, ifWrong } = oddsFor(demo, moved);
    expect(moved.observations.filter(isFixing)).toHaveLength(1);
    const doubted = ifWrong?.entries.filter(({ chance }) => chance > 0.1).map(({ observation }) => observation) ?? [];
    expect(doubted).not.toContain(moved.observations.find(isFixing)?.id);
    // What is told of the rest is as if nobody had looked how it is fixed.
    const without = oddsFor(demo, { ...moved, observations: moved.observations.filter((one) => !isFixing(one)) });
    expect(ifWrong?.chance).toBeCloseTo(without.ifWrong?.chance as number, 12);
    expect(ifRight?.chance).toBeCloseTo(without.ifRight?.chance as number, 12);
  });

  it('[Q1] [O5] what a plate has as listed plates do, is of its joint, or is known of none is weighed', () => {
    const plates = (change: (facts: Part['facts']) => Part['facts']): CompiledAtlas =>
      compileAtlas({
        ...demo.data,
        parts: demo.data.parts.map((part) => (part.slot === 'nameplate' ? { ...part, facts: change(part.facts) } : part)),
      });
    const weighed = (atlas: CompiledAtlas, feature: string, option: string): number => {
      const entry = {
        id: 'x',
        slot: 'nameplate',
        feature,
        value: { kind: 'choice', option },
        sure: { kind: 'seen' },
      } as unknown as Observation;
      return entriesIn(posteriorOf(groundOf(atlas), { ...demoSheet('s02'), observations: [entry] }, startingAssumptions)).length;
    };
    const fixing = 'nameplate-fixing' as FeatureId;
    const rivet = 'nameplate-rivet' as FeatureId;
    expect(['factory-rivets', 'glued', 'replaced-rivets'].map((option) => weighed(demo, fixing, option))).toEqual([1, 0, 0]);
    const oneRivet = plates((facts) => ({ ...facts, [rivet]: { kind: 'choice', anyOf: ['3'] } }));
    expect(weighed(oneRivet, rivet, 'screws')).toBe(1);
    const noneKnown = plates(({ [fixing]: _, ...facts }) => facts);
    expect(weighed(noneKnown, fixing, 'glued')).toBe(1);
  });

  it('[Q1] nothing entered, or nothing taken to slip: nothing can be wrong', () => {
    expect(oddsFor(twoWheels, seeing(twoWheels, {}), { ...certain, slip }).ifWrong).toBeNull();
    expect(oddsFor(twoWheels, seeing(twoWheels, { look: option('x') }), certain)).toMatchObject({ ifRight: { chance: 1 }, ifWrong: null });
  });

  it('[Q1] the entry that spoils the rest is named first, in words, with what the unit would be without it', () => {
    const odds = oddsFor(demo, demoSheet('s19'));
    expect(odds.ifWrong?.entries[0]).toMatchObject({
      feature: 'bearing-housing-water-ports',
      text: 'the water ports of the bearing housing, entered as not there',
      chance: expect.closeTo(0.96, 1),
    });
    expect(odds.ifWrong?.names[0]).toMatchObject({ text: expect.stringMatching(/^core of Merrowby Petrel 13/), ruledOutNow: true });
  });
});

describe('what a unit may be built of', () => {
  it('[Q1] a model the atlas does not list has its share, however many are listed', () => {
    const of = (times: number) =>
      atlasOfTable({
        slots: ['wheel'],
        features: [],
        parts: [{ id: 'a', slot: 'wheel', facts: {} }],
        models: [{ id: 'm', times, lists: ['a'] }],
      });
    for (const times of [1, 7, 60]) {
      const atlas = of(times);
      const built = posteriorOf(groundOf(atlas), seeing(atlas, {}), startingAssumptions).built;
      expect(built[times]).toBeCloseTo(startingAssumptions.stranger, 12);
      expect(built[0]).toBeCloseTo((1 - startingAssumptions.stranger) / times, 12);
    }
  });

  const atlas = compileAtlas(littleAtlas);
  /** A Ling wheel with its 7 mm bore, on the 6 mm end of a Cod’s shaft, read four times over. */
  const forced = sheetOf([
    marked('housing.cast-name', 'QUAY AIR'),
    measured('housing.bore', 40.65),
    chose('shaft.end', '6'),
    chose('shaft.bearing', 'journal'),
    blades(6),
    measured('wheel.tip', 50.01),
    chose('wheel.bore', '7'),
    marked('wheel.cast-mark', 'QUAYSIDE'),
  ]);
  const wheel = (assumptions: Assumptions) => {
    const posterior = posteriorOf(groundOf(atlas), forced, assumptions);
    const { number, partNumber } = atlas.slots[1] as (typeof atlas.slots)[number];
    return partChances(posterior, number)[partNumber.get('wheel/ling' as never) as number] as number;
  };

  it('[Q1] a listed part that does not fit has a chance of its own: what was truly read of it is not taken for slips', () => {
    const never = { ...startingAssumptions, stranger: 0, misfit: 0 };
    expect(wheel({ ...never, misfit: 0.05 })).toBeGreaterThan(0.95);
    expect(wheel({ ...never, misfit: 0.05 })).toBeGreaterThan(wheel(never));
    const [with5, without] = [0.05, 0].map((misfit) => oddsFor(atlas, forced, { ...never, misfit }).ifWrong?.chance as number);
    expect(with5).toBeLessThan(without as number);
  });

  it('[Q1] [A7] an open-ended list holds any listed part without penalty, and asks nothing of its neighbours', () => {
    const open = compileAtlas({
      ...littleAtlas,
      models: littleAtlas.models.map((model) => (model.id === 'cod-1' ? { ...model, openEnded: ['wheel'] as never } : model)),
    });
    const sheet = sheetOf([]);
    const parts = (of: CompiledAtlas) => {
      const posterior = posteriorOf(groundOf(of), sheet, { ...certain, stranger: 0 });
      const cod = posterior.ground.built.seatOf[1]?.[0] as number;
      const { before } = posterior.slots[1] as (typeof posterior.slots)[number];
      return { own: before.own[cod], belonging: before.belonging[cod] };
    };
    expect(parts(atlas)).toEqual({ own: 1, belonging: 0 });
    expect(parts(open)).toEqual({ own: 0, belonging: 1 / 3 });
    // Beside the open list of wheels any shaft fits.
    const seat = (of: CompiledAtlas) => {
      const { built } = groundOf(of);
      return built.seats[2]?.[built.seatOf[2]?.[0] as number]?.fitting;
    };
    expect([seat(atlas), seat(open)]).toEqual([2, 4]);
  });
});

describe('reading again', () => {
  it('[Q1] an entry likely to be a slip is read again before anything else, with the minutes of the look alone', () => {
    const sheet = demoSheet('s19');
    const odds = oddsFor(demo, sheet);
    const next = nextCheck(demo, sheet, odds);
    expect(next?.how).toBe('Read again: the water ports of the bearing housing, entered as not there.');
    expect(next?.check).toMatchObject({
      openingMinutes: 0,
      opening: [],
      minutes: demo.features.get(next?.check.feature as never)?.minutes,
    });
    expect(next?.check.again).toEqual(sheet.observations.filter(({ feature }) => feature === next?.check.feature).map(({ id }) => id));
  });

  it('[Q1] read the same twice, an entry is hardly a slip any more, and is not asked for again', () => {
    const sheet = demoSheet('s19');
    const entry = sheet.observations.find(({ feature }) => feature === 'bearing-housing-water-ports');
    const twice: Sheet = { ...sheet, observations: [...sheet.observations, { ...(entry as never as object), id: 'twice' } as never] };
    const [once, after] = [oddsFor(demo, sheet), oddsFor(demo, twice)];
    expect(after.ifRight?.chance).toBeGreaterThan(0.9);
    expect(once.ifRight?.chance).toBeLessThan(0.6);
    const dropOf = ({ checks }: Odds) => checks.find(({ feature }) => feature === entry?.feature)?.drop ?? 0;
    expect(dropOf(after)).toBeLessThan(dropOf(once) / 5);
  });

  it('[Q1] what it would do to the verdict is done in the place of the old reading: the same reading changes nothing', () => {
    const sheet = demoSheet('s19');
    const effects = checkEffects(demo, sheet, 'bearing-housing-water-ports' as never);
    const verdict = answer(demo, sheet);
    if (verdict.kind === 'contradiction' || effects === null) throw new Error('no verdict');
    const same = effects.outcomes.find(({ text }) => text === 'no water ports');
    expect(same).toMatchObject({ honest: verdict.honest.map((name) => expect.objectContaining({ name })), rulesOut: [], makesStand: [] });
    const other = effects.outcomes.find(({ text }) => text === 'water ports');
    expect(other?.open).toBeGreaterThan(0);
  });

  it('[Q1] what was given up is not read again', () => {
    const sheet = demoSheet('s19');
    const unseen = [{ slot: 'bearing-housing', feature: 'bearing-housing-water-ports', why: 'could not see' }] as never;
    expect(oddsFor(demo, { ...sheet, unseen }).checks.filter(({ feature }) => feature === 'bearing-housing-water-ports')).toEqual([]);
  });
});
