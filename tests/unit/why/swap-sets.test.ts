import { describe, expect, it } from 'vitest';
import {
  type Atlas,
  asId,
  compileAtlas,
  explain,
  type NameId,
  planBuild,
  type Sheet,
  type SlotId,
  type SwapSet,
} from '../../../reasoner/index.ts';
import { inOrderOfS1 } from '../../../reasoner/why/explain.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from '../reasoner/little-atlas.ts';

const little = compileAtlas(littleAtlas);
const swapsOf = (atlas: Atlas, sheet: Sheet, name: string): readonly SwapSet[] =>
  explain(compileAtlas(atlas), sheet, asId<NameId>(name)).swaps?.found ?? [];

/** The little atlas with a model that asks for the housing of one and the shaft of the other, and has its wheel as a service part. */
const oddModel = (change: Partial<Atlas['models'][number]> = {}): Atlas => ({
  ...littleAtlas,
  models: [
    ...littleAtlas.models,
    {
      id: 'odd',
      name: 'Odd 1',
      family: 'cod',
      generation: null,
      patternOf: null,
      from: null,
      to: null,
      allowed: [
        { slot: 'housing', part: 'housing/cod', role: 'names' },
        { slot: 'wheel', part: 'wheel/cod', role: 'service' },
        { slot: 'shaft', part: 'shaft/cartridge', role: 'names' },
      ],
      source: 'made-up',
      ...change,
    } as unknown as Atlas['models'][number],
  ],
});

describe('what a swap leaves', () => {
  it('[S1] a swap that settles a doubt after which the name is still ruled out is not enough by itself, and says so', () => {
    // The wheel does not go into this housing, so both are in doubt and nothing is asked of the wheel. In another housing it is no longer in doubt, and then no
    // shaft the model has goes into it.
    const sheet = sheetOf([measured('housing.bore', 50.6), blades(8)]);
    expect(swapsOf(oddModel(), sheet, 'service:odd')).toMatchObject([{ slots: ['housing'], leaves: 'ruled out' }]);
    const after = sheetOf([measured('housing.bore', 40.6), blades(8)]);
    expect(explain(compileAtlas(oddModel()), after, asId<NameId>('service:odd')).status).toBe('ruled out');
  });

  it('[S1] cheapest first, then fewest slots; what is not enough by itself comes after every swap that is, and last what only a maker can do', () => {
    const swap = (slots: string, minutes: number, leaves: SwapSet['leaves'], plates: string[] = []): SwapSet => ({
      slots: slots.split(' ').map((slot) => asId<SlotId>(slot)),
      parts: [],
      plates: plates.map((slot) => asId<SlotId>(slot)),
      minutes,
      work: 0,
      leaves,
    });
    const sorted = [
      swap('a', 5, 'open'),
      swap('b', 7, 'stands'),
      swap('a b', 7, 'stands'),
      swap('b c', 7, 'open'),
      swap('c', 1, 'ruled out'),
      swap('d', 2, 'ruled out'),
      swap('plate', 0, 'stands', ['plate']),
      swap('a plate', 3, 'ruled out', ['plate']),
    ];
    for (let turn = 0; turn < sorted.length; turn += 1)
      expect([...sorted.slice(turn), ...sorted.slice(0, turn)].reverse().sort(inOrderOfS1)).toEqual(sorted);
  });

  it('[S1] a part put in is judged like one that was seen there: the name stands, or is still open elsewhere', () => {
    const rest = [measured('housing.bore', 50.6), chose('shaft.weld', 'beam'), marked('plate.number', '5-50')];
    expect(swapsOf(littleAtlas, sheetOf([...rest, blades(8)]), 'service:ling-3-cartridge')).toMatchObject([
      { slots: ['wheel'], leaves: 'stands' },
    ]);
    expect(swapsOf(littleAtlas, sheetOf([blades(8), marked('plate.number', '5-50')]), 'service:ling-3-cartridge')).toMatchObject([
      { slots: ['wheel'], leaves: 'open' },
    ]);
    // A slot that holds nothing is filled.
    expect(swapsOf(littleAtlas, sheetOf([...rest], { absent: [asId('wheel')] }), 'service:ling-3-cartridge')).toMatchObject([
      { slots: ['wheel'], parts: [{ slot: 'wheel', parts: ['wheel/ling'], needs: [] }], leaves: 'stands' },
    ]);
  });

  it('[S1] [A7] where the name’s list is not whole, a part that would do need not be a listed one', () => {
    const open = oddModel({
      id: asId('open'),
      name: 'Open 1',
      allowed: [{ slot: 'wheel', part: 'wheel/ling', role: 'names' }] as unknown as Atlas['models'][number]['allowed'],
    });
    const swaps = swapsOf(open, sheetOf([chose('shaft.end', '6')]), 'service:open');
    expect(swaps).toMatchObject([{ slots: ['shaft'], parts: [{ slot: 'shaft', parts: [] }], leaves: 'open' }]);
    // The same of a shaft that is missing, where the one the model lists does not go into its wheel: it is filled all the same.
    const listed = oddModel({
      id: asId('open'),
      name: 'Open 1',
      openEnded: [asId('shaft')],
      allowed: [
        { slot: 'wheel', part: 'wheel/ling', role: 'names' },
        { slot: 'shaft', part: 'shaft/journal-old', role: 'names' },
      ] as unknown as Atlas['models'][number]['allowed'],
    });
    expect(swapsOf(listed, sheetOf([], { absent: [asId('shaft')] }), 'service:open')).toMatchObject([
      { slots: ['shaft'], parts: [{ slot: 'shaft', parts: [] }], leaves: 'open' },
    ]);
  });
});

describe('a nameplate', () => {
  it('[S1] is never exchanged: only its maker can confirm or issue one, at no cost, after every other way', () => {
    const rest = [measured('housing.bore', 50.6), blades(6), chose('shaft.weld', 'beam')];
    expect(swapsOf(littleAtlas, sheetOf([...rest, marked('plate.number', '4-40')]), 'service:ling-3-cartridge')).toEqual([
      { slots: ['plate'], parts: [], plates: ['plate'], minutes: 0, work: 0, leaves: 'stands' },
    ]);
    const wheelToo = sheetOf([measured('housing.bore', 50.6), blades(8), chose('shaft.weld', 'beam')], { absent: [asId('plate')] });
    const [both, ...none] = swapsOf(littleAtlas, wheelToo, 'service:ling-3-cartridge');
    expect(none).toEqual([]);
    // Housing off (15) and the wheel's own 20 minutes; nothing for the plate.
    expect(both).toMatchObject({ slots: ['wheel', 'plate'], parts: [{ slot: 'wheel' }], plates: ['plate'], minutes: 35 });
  });

  it('[S1] [N3] on paper a name is still open after an exchange while a slot it asks for has no part chosen', () => {
    const planned = (chosen: Record<string, string>): Sheet =>
      sheetOf([], { kind: 'planned', claimed: 'Ling 3 Cartridge', chosen: chosen as unknown as Sheet['chosen'] });
    const swaps = (sheet: Sheet) => {
      const plan = planBuild(little, sheet);
      return plan.kind === 'plan' ? plan.swaps?.found : null;
    };
    const most = { housing: 'housing/ling', wheel: 'wheel/lane', plate: 'plate/ling' };
    expect(swaps(planned(most))).toMatchObject([{ slots: ['wheel'], leaves: 'open' }]);
    expect(swaps(planned({ ...most, shaft: 'shaft/cartridge' }))).toMatchObject([{ slots: ['wheel'], leaves: 'stands' }]);
  });
});
