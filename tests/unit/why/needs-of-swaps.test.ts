import { describe, expect, it } from 'vitest';
import { verdictText } from '../../../electron/command-line/verdict-text.ts';
import {
  type Atlas,
  answer,
  asId,
  compileAtlas,
  explain,
  type Fact,
  type NameId,
  type Operation,
  type Part,
  planBuild,
  type Sheet,
  type SwapSet,
} from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { leastWork } from '../../../reasoner/why/least-work.ts';
import { swapSetsWithNeeds } from '../../../reasoner/why/needs-of-swaps.ts';
import { blades, choice, chose, count, feature, littleAtlas, marked, measured, mm, saw, sheetOf } from '../reasoner/little-atlas.ts';
import { cut } from '../reasoner/shop-operations.ts';

/** The wheel has to clear the housing by 0.1 to 1 mm on the radius; the shop turns a tip down in 45 minutes and opens a bore in an hour and a half. */
const shop = (hours = 0.75): Operation[] => [
  cut('turn-tip', 'wheel.tip', 'smaller', 1, { name: 'turn down the tip', hours, turning: true }),
  cut('open-bore', 'housing.bore', 'larger', 1, { name: 'open the bore', hours: 1.5 }),
];

const made = (id: string, facts: Record<string, Fact>): Part =>
  ({ id, slot: id.split('/')[0], name: id.split('/')[1], maker: 'quayside', numbers: [id], facts, source: 'made-up' }) as unknown as Part;
const wheel = (name: string, tip: Fact, rest: Record<string, Fact> = {}): Part =>
  made(`wheel/${name}`, { 'wheel.blades': count(6), 'wheel.bore': choice('7'), 'wheel.tip': tip, ...rest });
const housing = (name: string, bore: Fact): Part => made(`housing/${name}`, { 'housing.bore': bore });

/** A Ling 3 that may have these wheels, which stand before its own, and these housings beside its own. */
const lingWith = (wheels: readonly Part[], housings: readonly Part[] = [], own = true, operations = shop()): Atlas => ({
  ...littleAtlas,
  operations,
  models: littleAtlas.models.map((model) =>
    model.id !== 'ling-3-cartridge'
      ? model
      : {
          ...model,
          allowed: [
            ...model.allowed.filter(({ part }) => own || part !== 'wheel/ling'),
            ...[...wheels, ...housings].map(({ id, slot }) => ({ slot, part: id, role: 'names' as const })),
          ],
        },
  ),
  parts: [...wheels, ...housings, ...littleAtlas.parts],
});

const swapsOf = (atlas: Atlas, sheet: Sheet, name = 'service:ling-3-cartridge'): readonly SwapSet[] =>
  explain(compileAtlas(atlas), sheet, asId<NameId>(name)).swaps?.found ?? [];

/** Eight blades are a Cod's; all else is a Ling's. Housing off is 15 minutes, exchanging the wheel 20. */
const rest = [blades(8), chose('shaft.weld', 'beam'), marked('plate.number', '5-50')];
const lingHousing = [...rest, measured('housing.bore', 50.6)];
/** The smallest bore a Ling's housing has. */
const tightHousing = [...rest, measured('housing.bore', 50.56, 0.01)];
const large = wheel('large', mm(50.45));

describe('what the parts given for a swap need before they go on', () => {
  it('[S1] parts that drop in need nothing, and the swap takes what it took', () => {
    expect(swapsOf(lingWith([]), sheetOf(lingHousing))).toMatchObject([
      { slots: ['wheel'], parts: [{ slot: 'wheel', parts: ['wheel/ling'], needs: [] }], minutes: 35, work: 0 },
    ]);
  });

  it('[S1] replacements that drop in come first; one that needs work says which, on which part and for how long, and costs nothing while another drops in', () => {
    const [swap, ...none] = swapsOf(lingWith([large]), sheetOf(tightHousing));
    expect(none).toEqual([]);
    expect(swap).toMatchObject({
      parts: [
        {
          parts: ['wheel/ling', 'wheel/large'],
          needs: [
            {
              parts: ['wheel/large'],
              fit: 'after work',
              minutes: 45,
              sentences: ['Wheel in housing goes together after work: turn down the tip on the new compressor wheel, 45 min.'],
            },
          ],
        },
      ],
      minutes: 35,
      work: 0,
    });
  });

  it('[S1] where no replacement drops in the cheapest work is part of what the swap costs', () => {
    const two = [large, wheel('larger', mm(50.47))];
    expect(swapsOf(lingWith(two, [], false), sheetOf(tightHousing))).toMatchObject([{ minutes: 80, work: 45 }]);
    // Dearer to turn than the bore is to open: then that is done, to the part that stays.
    expect(swapsOf(lingWith([large], [], false, shop(4)), sheetOf(tightHousing))).toMatchObject([
      {
        minutes: 125,
        work: 90,
        parts: [
          { needs: [{ sentences: ['Wheel in housing goes together after work: open the bore on the compressor housing, 90 min.'] }] },
        ],
      },
    ]);
    // What must be judged by the part in hand need not be true of the next: without a reading some pairs go together as they are.
    const [unread] = swapsOf(
      lingWith([large], [], false),
      sheetOf([...rest, saw('housing.cast-name', { kind: 'mark', text: 'QUAYSIDE' })]),
    );
    expect(unread).toMatchObject({ minutes: 35, work: 0 });
  });

  it('[A5] work that hangs on a wall nobody knows is not what it costs', () => {
    const walled = shop().map((operation) =>
      operation.id === 'turn-tip'
        ? {
            ...operation,
            does: {
              kind: 'cut',
              cuts:
                operation.does.kind === 'cut'
                  ? operation.does.cuts.map((cut) => ({ ...cut, metal: [{ feature: 'wheel.stock', per: 2, leaves: 1 }] }))
                  : [],
            },
          }
        : operation,
    ) as Operation[];
    const atlas = lingWith([large], [], false, walled);
    const known = { ...atlas, features: [...atlas.features, feature('wheel.stock', 'measure', { unit: 'mm' })] };
    expect(swapsOf(known, sheetOf(tightHousing))).toMatchObject([{ work: 90 }]);
    const only = { ...known, operations: walled.slice(0, 1) };
    expect(swapsOf(only, sheetOf(tightHousing))).toMatchObject([
      {
        work: 0,
        parts: [
          { needs: [{ sentences: ['Whether wheel in housing goes together is not known: the compressor wheel’s stock is not known.'] }] },
        ],
      },
    ]);
  });

  it('[S1] what was read of the part that stays is what the new part meets, not what the atlas says of it', () => {
    const needsBeside = (bore: number) =>
      swapsOf(lingWith([large], [], false), sheetOf([...rest, measured('housing.bore', bore, 0.01)]))[0]?.parts[0]?.needs;
    expect(needsBeside(50.56)).toMatchObject([{ fit: 'after work' }]);
    expect(needsBeside(50.64)).toMatchObject([{ fit: 'measure and choose', minutes: 0 }]);
    // Worn as far as it may, it takes every one of these wheels.
    expect(needsBeside(50.73)).toEqual([]);
    // And what was read of one unit says nothing of the next over the same atlas.
    const shared = compileAtlas(lingWith([large], [], false));
    const inOne = (bore: number) =>
      explain(shared, sheetOf([...rest, measured('housing.bore', bore, 0.01)]), asId<NameId>('service:ling-3-cartridge')).swaps?.found[0]
        ?.work;
    expect([inOne(50.56), inOne(50.73), inOne(50.56)]).toEqual([45, 0, 45]);
    // A reading of the wheel that goes out says nothing of the one that comes in.
    const old = sheetOf([...lingHousing, measured('wheel.tip', 50, 0.01)]);
    expect(swapsOf(lingWith([large], [], false), old)[0]?.parts[0]?.needs).toMatchObject([{ fit: 'measure and choose' }]);
  });

  it('[S1] some pairs only: both parts are measured and chosen, or worked where the shop can', () => {
    const needs = (operations: Operation[]) =>
      swapsOf(lingWith([large], [], false, operations), sheetOf(lingHousing))[0]?.parts[0]?.needs[0];
    expect(needs(shop())?.sentences).toEqual([
      'Wheel in housing goes together for some pairs only: measure both parts and choose, or turn down the tip on the new compressor wheel, 45 min.',
    ]);
    // Without operations too the joints tell parts apart.
    expect(swapsOf(lingWith([large], [], true, []), sheetOf(lingHousing))[0]?.parts[0]).toMatchObject({
      parts: ['wheel/ling', 'wheel/large'],
      needs: [{ parts: ['wheel/large'], fit: 'measure and choose' }],
    });
    expect(needs([])).toEqual({
      parts: ['wheel/large'],
      fit: 'measure and choose',
      minutes: 0,
      sentences: ['Wheel in housing goes together for some pairs only: measure both parts and choose.'],
    });
  });

  it('[S1] where the neighbour may be one of several, it depends on which, and no work is counted', () => {
    const wide = housing('wide', mm(51));
    const unseen = sheetOf(rest);
    expect(swapsOf(lingWith([large], [wide], false), unseen)).toMatchObject([
      {
        work: 0,
        parts: [
          {
            needs: [
              {
                fit: 'depends',
                minutes: 0,
                sentences: [
                  'Wheel in housing: it depends on which compressor housing the unit has; with some it drops in and with others it goes together for some pairs only.',
                ],
              },
            ],
          },
        ],
      },
    ]);
    // A housing it does not go with at all is not there once it is on.
    expect(swapsOf(lingWith([wheel('small', mm(49.9))], [wide], false), unseen)[0]?.parts[0]?.needs).toEqual([]);
  });

  it('[A5] what the atlas does not say, or what is in doubt, leaves it not known, and is named', () => {
    const blank = wheel('blank', { kind: 'not known' });
    expect(swapsOf(lingWith([blank]), sheetOf(lingHousing))[0]?.parts[0]).toMatchObject({
      parts: ['wheel/ling', 'wheel/blank'],
      needs: [
        {
          parts: ['wheel/blank'],
          fit: 'not known',
          sentences: ['Whether wheel in housing goes together is not known: the compressor wheel’s tip is not known.'],
        },
      ],
    });
    const free: Atlas = {
      ...lingWith([]),
      models: lingWith([]).models.map((model) => ({
        ...model,
        allowed: model.allowed.filter(({ slot }) => slot === 'wheel' || slot === 'shaft'),
      })),
    };
    const foreign = sheetOf([blades(8), chose('shaft.weld', 'beam'), measured('housing.bore', 70)]);
    expect(swapsOf(free, foreign)[0]?.parts[0]?.needs).toMatchObject([
      {
        fit: 'not known',
        sentences: ['Whether wheel in housing goes together is not known: the compressor housing is in doubt.'],
      },
    ]);
  });

  it('[S1] in order: drops in, measure and choose, after work, not known, will not fit; what will not fit is no way to do it for nothing', () => {
    // Only a wheel bored 7 can be held to be turned.
    const turned = shop()
      .slice(0, 1)
      .map((operation) => ({ ...operation, takes: [{ feature: 'wheel.bore', anyOf: ['7'] }] }) as unknown as Operation);
    const stuck = wheel('stuck', mm(50.45), { 'wheel.bore': choice('6', '7') });
    const blank = wheel('blank', { kind: 'not known' });
    const choosable = wheel('choosable', mm(50), { 'wheel.bore': choice('6', '7') });
    const [swap] = swapsOf(lingWith([stuck, blank, large, choosable], [], true, turned), sheetOf(tightHousing));
    expect(swap?.parts[0]?.needs.map(({ parts, fit }) => [...parts, fit])).toEqual([
      ['wheel/choosable', 'measure and choose'],
      ['wheel/large', 'after work'],
      ['wheel/blank', 'not known'],
      ['wheel/stuck', 'will not fit'],
    ]);
    expect(swap?.parts[0]?.needs.at(-1)?.sentences[0]).toBe(
      'Wheel in housing will not fit, and no operation the atlas knows makes it fit.',
    );
    expect(swapsOf(lingWith([stuck, large], [], false, turned), sheetOf(tightHousing))).toMatchObject([{ work: 45, minutes: 80 }]);
  });

  it('[S1] nothing is fitted where there is nothing: an absent neighbour asks for no work', () => {
    const free: Atlas = {
      ...lingWith([large], [], false),
      models: lingWith([large], [], false).models.map((model) => ({
        ...model,
        allowed: model.allowed.filter(({ slot }) => slot === 'wheel' || slot === 'shaft'),
      })),
    };
    const bare = sheetOf([blades(8), chose('shaft.weld', 'beam')], { absent: [asId('housing')] });
    expect(swapsOf(free, bare)[0]).toMatchObject({ slots: ['wheel'], work: 0, parts: [{ needs: [] }] });
  });

  it('[S1] where both neighbours are replaced one takes those that go together best', () => {
    const wide = housing('wide', mm(51));
    const both = sheetOf([...rest, measured('housing.bore', 40.6)]);
    expect(swapsOf(lingWith([large], [wide], false), both)).toMatchObject([
      { slots: ['housing', 'wheel'], work: 0, parts: [{ parts: ['housing/wide', 'housing/ling'] }, { parts: ['wheel/large'], needs: [] }] },
    ]);
    // The housing that is narrow for the only wheel there is says so.
    expect(swapsOf(lingWith([large], [wide], false), both)[0]?.parts[0]?.needs).toMatchObject([
      { parts: ['housing/ling'], fit: 'measure and choose' },
    ]);
  });

  it('[J2] a build on paper: the part chosen is the one it meets, a slot nobody has chosen for waits', () => {
    const sheet = (chosen: Record<string, string>, observations: Sheet['observations'] = []): Sheet =>
      sheetOf(observations, { kind: 'planned', claimed: 'Ling 3 Cartridge', chosen: chosen as unknown as Sheet['chosen'] });
    const needs = (of: Sheet) => {
      const plan = planBuild(compileAtlas(lingWith([large], [], false)), of);
      return plan.kind === 'plan'
        ? plan.swaps?.found.map(({ slots, work, parts }) => [slots, work, parts[0]?.needs.map(({ fit }) => fit)])
        : null;
    };
    const lane = { wheel: 'wheel/lane', plate: 'plate/ling', shaft: 'shaft/cartridge' };
    expect(needs(sheet({ ...lane, housing: 'housing/ling' }))).toEqual([[['wheel'], 0, ['measure and choose']]]);
    expect(needs(sheet({ ...lane, housing: 'housing/ling' }, [measured('housing.bore', 50.56, 0.01)]))).toEqual([
      [['wheel'], 45, ['after work']],
    ]);
    expect(needs(sheet(lane))).toEqual([[['wheel'], 0, []]]);
    // A part in hand that is not the one chosen is judged by what was measured on it.
    expect(needs(sheet({ ...lane, housing: 'housing/ling' }, [measured('housing.bore', 51, 0.01)]))).toContainEqual([['wheel'], 0, []]);
  });

  it('[S1] no more pairs are judged than were asked for; what is left says so and is counted as nothing', () => {
    const unit = unitOf(compileAtlas(lingWith([large], [], false)), sheetOf(tightHousing));
    const rule = findRule(unit, asId<NameId>('service:ling-3-cartridge'));
    if (rule === undefined) throw new Error('the name is there');
    const needs = (pairs: number) =>
      swapSetsWithNeeds(unit, rule, undefined, pairs).found.map(({ work, parts }) => [work, parts[0]?.needs]);
    // A housing and a shaft: two pairs.
    expect(needs(2)).toMatchObject([[45, [{ fit: 'after work' }]]]);
    expect(needs(1)).toMatchObject([[0, [{ fit: 'not looked into', minutes: 45 }]]]);
    expect(needs(0)).toMatchObject([
      [
        0,
        [
          {
            sentences: [
              'Wheel in housing was not looked into: too many parts may be there.',
              'Wheel on shaft was not looked into: too many parts may be there.',
            ],
          },
        ],
      ],
    ]);
  });

  it('[S1] the command line says what the swap takes, and under it what a part needs', () => {
    const atlas = lingWith([large, wheel('larger', mm(50.47))], [], false);
    const sheet = sheetOf(tightHousing, { claimed: 'Ling 3 Cartridge' });
    const text = verdictText(answer(compileAtlas(atlas), sheet), sheet, atlas);
    expect(text).toContain('exchange compressor wheel (large, larger): about 80 min, 45 of them work; the name then stands');
    expect(text).toContain(
      '\n     - compressor wheel large, larger: Wheel in housing goes together after work: turn down the tip on the new compressor wheel, 45 min.',
    );
    const own = verdictText(answer(compileAtlas(lingWith([])), sheet), sheet, lingWith([]));
    expect(own).toContain('exchange compressor wheel (ling): about 35 min; the name then stands');
    expect(own).not.toContain('     - ');
  });
});

describe('parts that do not go on as they are made', () => {
  /** No Ling's housing takes it before it is turned down. */
  const tooLarge = wheel('too-large', mm(50.7));
  const unread = sheetOf([...rest, saw('housing.cast-name', { kind: 'mark', text: 'QUAYSIDE' })]);
  const told = (atlas: Atlas, sheet: Sheet) =>
    swapsOf(atlas, sheet).map(({ slots, work, parts }) => ({ slots, work, needs: parts.flatMap(({ needs }) => needs) }));

  it('[S1] are given with their work, and that is counted where there is no other', () => {
    const after = 'Wheel in housing goes together after work: turn down the tip on the new compressor wheel, 45 min.';
    expect(swapsOf(lingWith([tooLarge]), unread)).toMatchObject([
      {
        slots: ['wheel'],
        parts: [{ parts: ['wheel/ling', 'wheel/too-large'], needs: [{ fit: 'after work', sentences: [after] }] }],
        minutes: 35,
        work: 0,
      },
    ]);
    expect(swapsOf(lingWith([tooLarge], [], false), unread)).toMatchObject([
      { minutes: 80, work: 45, parts: [{ needs: [{ sentences: [after] }] }] },
    ]);
    // The cheapest of several, whichever stands first.
    const dear = wheel('dear', mm(50.7), { 'wheel.bore': choice('6', '7') });
    const held = shop().map((each) =>
      each.id === 'turn-tip' ? { ...each, takes: [{ feature: 'wheel.bore', anyOf: ['7'] }] } : each,
    ) as unknown as Operation[];
    for (const wheels of [
      [dear, tooLarge],
      [tooLarge, dear],
    ])
      expect(swapsOf(lingWith(wheels, [], false, held), unread)).toMatchObject([
        { work: 45, parts: [{ parts: ['wheel/too-large', 'wheel/dear'], needs: [{ minutes: 45 }, { minutes: 90 }] }] },
      ]);
  });

  it('[S1] beside several housings: where each asks for work the least is counted, where one does not it depends', () => {
    const wide = housing('wide', mm(51));
    expect(told(lingWith([tooLarge], [wide], false), unread)).toMatchObject([
      {
        work: 0,
        needs: [
          {
            fit: 'depends',
            minutes: 0,
            sentences: [
              'Wheel in housing: it depends on which compressor housing the unit has; with some it drops in and with others it goes together after work (turn down the tip on the new compressor wheel, 45 min).',
            ],
          },
        ],
      },
    ]);
    const blank = housing('blank', { kind: 'not known' });
    expect(told(lingWith([tooLarge], [blank], false), sheetOf(rest)), 'not known with one: nothing is sure').toMatchObject([
      { work: 0, needs: [{ fit: 'depends', minutes: 0 }] },
    ]);
    // Only a wheel bored 7 is turned, only a cast housing is bored: which is done depends on the housing.
    const cast = made('housing/cast', {
      'housing.bore': mm(50.6),
      'housing.cast-name': { kind: 'mark', anyOf: ['QUAYSIDE'], blank: false },
      'housing.metal': choice('cast'),
    });
    const [turn, open] = shop(2) as [Operation, Operation];
    const bored = [turn, { ...open, takes: [{ feature: 'housing.metal', anyOf: ['cast'] }] }] as unknown as Operation[];
    const atlas = lingWith([tooLarge], [cast], false, bored);
    const metal = feature('housing.metal', 'choice', {
      options: [
        { id: 'cast', name: 'cast' },
        { id: 'turned', name: 'turned' },
      ],
    });
    const own = atlas.parts.map((part) =>
      part.id === 'housing/ling' ? { ...part, facts: { ...part.facts, 'housing.metal': choice('turned') } } : part,
    );
    expect(told({ ...atlas, parts: own, features: [...atlas.features, metal] }, unread)).toMatchObject([
      {
        work: 90,
        needs: [
          {
            fit: 'after work',
            minutes: 90,
            sentences: [
              'Wheel in housing goes together after work with every compressor housing it may be; which work, depends on that. The least is to open the bore on the compressor housing, 90 min.',
            ],
          },
        ],
      },
    ]);
  });

  it('[S1] where both neighbours are replaced the work between them is counted once', () => {
    const both = sheetOf([...rest, measured('housing.bore', 40.6)]);
    const [swap] = swapsOf(lingWith([tooLarge], [], false), both);
    expect(swap).toMatchObject({
      slots: ['housing', 'wheel'],
      work: 45,
      parts: [
        {
          needs: [
            {
              minutes: 45,
              sentences: ['Wheel in housing goes together after work: turn down the tip on the new compressor wheel, 45 min.'],
            },
          ],
        },
        { needs: [{ minutes: 45 }] },
      ],
    });
  });

  it('[S1] cheapest first counts the work: a quicker swap with an hour of it comes after a slower one with none', () => {
    // The wheel seen does not go onto the shaft seen. A wheel that does has to be turned down for this housing (35 minutes and the work); another shaft drops in (85).
    const sixer = wheel('sixer', mm(50.7), { 'wheel.bore': choice('6') });
    const either = (hours: number): Atlas => {
      const atlas = lingWith([sixer], [], true, shop(hours));
      const names = (part: string) => ({ slot: part.split('/')[0], part, role: 'names' });
      const model = {
        ...atlas.models[0],
        id: 'either',
        name: 'Either 1',
        allowed: ['housing/ling', 'wheel/ling', 'wheel/sixer', 'shaft/journal-old', 'shaft/cartridge'].map(names),
      } as unknown as Atlas['models'][number];
      return { ...atlas, models: [...atlas.models, model] };
    };
    const seen = sheetOf([chose('wheel.bore', '7'), chose('shaft.end', '6'), measured('housing.bore', 50.6)]);
    const order = (hours: number) =>
      swapsOf(either(hours), seen, 'service:either').map(({ slots, minutes, work }) => [slots.join(), minutes, work]);
    expect(order(0.75)).toEqual([
      ['wheel', 80, 45],
      ['shaft', 85, 0],
    ]);
    expect(order(1)).toEqual([
      ['shaft', 85, 0],
      ['wheel', 95, 60],
    ]);
  });
});

describe('the least work of a choice', () => {
  const slot = (number: number, ...minutes: readonly number[]) => ({
    slot: number,
    parts: minutes.map((each, part) => ({ part, minutes: each })),
  });

  it('[S1] is over every choice of parts that go together: the cheapest alone need not be the cheapest with the others', () => {
    // The wheel that takes no work goes into neither housing without an hour of it.
    const between = (_: number, one: number, __: number, other: number): number | null =>
      one === 0 && other === 0 ? null : one === 0 ? 60 : 0;
    expect(leastWork([slot(1, 0, 20), slot(2, 0, 5)], between)).toBe(20);
    expect(leastWork([slot(1, 0, 70), slot(2, 0, 5)], between)).toBe(65);
    expect(leastWork([slot(1, 30, 10)], () => null)).toBe(10);
    expect(leastWork([slot(1), slot(2, 15)], () => 0)).toBe(15);
    expect(
      leastWork([slot(1, 3), slot(2, 4)], () => null),
      'nothing goes together: nothing can be said',
    ).toBe(0);
    expect(leastWork([], () => 0)).toBe(0);
  });

  it('[S1] of one slot the least, in whatever order the parts stand', () => {
    expect(leastWork([slot(1, 20, 30, 10)], () => 0)).toBe(10);
  });

  it('[S1] a part that takes more by itself can take less beside the others', () => {
    const dear = (part: number) => (part === 0 ? 20 : 0);
    expect(leastWork([slot(1, 30, 31), slot(2, 30)], (_, one) => dear(one))).toBe(61);
    expect(leastWork([slot(1, 30), slot(2, 30, 31)], (_, __, ___, other) => dear(other))).toBe(61);
  });

  it('[S1] what cannot come to less than was found is not looked into: of five parts in each of eight slots one choice', () => {
    let asked = 0;
    const none = (): number => {
      asked += 1;
      return 0;
    };
    const eight = Array.from({ length: 8 }, (_, i) => slot(i, 10, 10, 20, 20, 30));
    expect(leastWork(eight, none)).toBe(80);
    // Each of the eight parts chosen is held against those before it.
    expect(asked).toBe(28);
  });
});
