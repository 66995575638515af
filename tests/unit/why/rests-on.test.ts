import { describe, expect, test } from 'vitest';
import type { NameRule } from '../../../reasoner/compile/name-rule.ts';
import { answer, asId, type CompiledAtlas, compileAtlas, type Observation, type Operation, type Sheet } from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { entriesRulingOut, entriesThatNarrow } from '../../../reasoner/why/rests-on.ts';
import { number, quay, tradeName } from '../plate/quay-atlas.ts';
import { blades, chose, littleAtlas, marked, measured, sheetOf } from '../reasoner/little-atlas.ts';
import { cut } from '../reasoner/shop-operations.ts';
import { seen, yard } from '../reasoner/yard-atlas.ts';

const little = compileAtlas(littleAtlas);
const ids = (entries: readonly Observation[]) => entries.map(({ id }) => id);
/** The entries each of which everything that rules a name out rests on. */
const ruling = (name: string, observations: readonly Observation[], rest: Partial<Sheet> = {}, atlas: CompiledAtlas = little) => {
  const unit = unitOf(atlas, sheetOf(observations, rest));
  return ids(entriesRulingOut(unit, findRule(unit, asId(name)) as NameRule));
};
const [eight, tip, journal, weld] = [blades(8), measured('wheel.tip', 40), chose('shaft.bearing', 'journal'), chose('shaft.weld', 'beam')];

describe('what rules a name out, all of it by one entry (O7)', () => {
  test('[O7] one that by itself keeps a part out of its slot; not two that keep out the same', () => {
    expect(ruling('service:ling-3-cartridge', [eight])).toEqual([eight.id]);
    expect(ruling('service:ling-3-cartridge', [eight, tip])).toEqual([]);
    // Twelve blades keep every wheel out; the tip keeps Ling’s out besides, and not Cod’s.
    const twelve = blades(12);
    expect(ruling('service:ling-3-cartridge', [twelve, tip])).toEqual([]);
    expect(ruling('service:cod-1', [twelve, tip])).toEqual([twelve.id]);
  });

  test('[O7] none where another slot would still hold no part of the name', () => {
    expect(ruling('service:ling-3-cartridge', [eight, journal])).toEqual([]);
    expect(ruling('service:cod-1', [weld, blades(6)])).toEqual([blades(6).id]);
    // A slot that holds one of its parts, and not another, is in nobody’s way.
    const atlas = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a d', shaft: 'x' }, 'Cod 2': { wheel: 'b', shaft: 'y' } },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    const [wheel, shaft] = seen({ wheel: 'a', shaft: 'y' }) as [Observation, Observation];
    expect(ruling('service:cod-1', [wheel, shaft], {}, atlas)).toEqual([shaft.id]);
  });

  test('[O7] what narrows what is left: not two that keep out the same', () => {
    const narrow = (...entries: Observation[]) => ids(entriesThatNarrow(unitOf(little, sheetOf(entries))));
    expect([narrow(eight, journal), narrow(eight, tip), narrow()]).toEqual([[eight.id, journal.id], [], []]);
  });

  test('[O7] [J1] and one that tells whether a part was machined, though it keeps none out that another does not', () => {
    const openBore = cut('open-bore', 'housing.bore', 'larger', 1);
    const entries = [marked('housing.cast-name', 'QUAY AIR'), measured('housing.bore', 40.6)];
    const narrow = (operations: readonly Operation[]) =>
      ids(entriesThatNarrow(unitOf(compileAtlas({ ...littleAtlas, operations }), sheetOf(entries))));
    expect([narrow([]), narrow([openBore])]).toEqual([[], ids(entries.slice(1))]);
  });

  test('[O7] an absence is no entry', () => {
    const missing = { absent: [asId('plate')] } as Partial<Sheet>;
    expect(ruling('all-parts:ling-3-cartridge', [eight], missing)).toEqual([eight.id]);
    // The name that asks for the plate is ruled out without it too.
    expect(ruling('service:ling-3-cartridge', [eight], missing)).toEqual([]);
  });

  test('[O5] [O7] what is on a plate speaks together: a trade name can be all that keeps its number from being the maker’s', () => {
    const stamped = [number('HB 4711'), tradeName('Quayside')];
    const claim = (observations: readonly Observation[]) => {
      const found = answer(quay, sheetOf(observations, { claimed: 'Mole 1' }));
      return found.kind === 'verdict' ? [found.claim?.status, found.claim?.restsOn] : null;
    };
    // Harbour numbers its plates so, and lists no such number.
    expect(claim(stamped)).toEqual(['ruled out', [tradeName('Quayside').id]]);
    expect(claim(stamped.slice(0, 1))).toEqual(['open', []]);
  });
});
