import { describe, expect, test } from 'vitest';
import { answer, asId, type CompiledAtlas, compileAtlas, type Observation, type Sheet } from '../../../reasoner/index.ts';
import { findRule } from '../../../reasoner/names/ladder.ts';
import type { NameRule } from '../../../reasoner/names/name-rule.ts';
import { unitOf } from '../../../reasoner/unit/unit.ts';
import { entriesThatCould } from '../../../reasoner/why/rests-on.ts';
import { number, quay, tradeName } from '../plate/quay-atlas.ts';
import { blades, chose, littleAtlas, measured, sheetOf } from '../reasoner/little-atlas.ts';
import { seen, yard } from '../reasoner/yard-atlas.ts';

const little = compileAtlas(littleAtlas);
/** The entries that could be all that rules a name out. */
const could = (name: string, observations: readonly Observation[], rest: Partial<Sheet> = {}, atlas: CompiledAtlas = little) => {
  const unit = unitOf(atlas, sheetOf(observations, rest));
  return entriesThatCould(unit, findRule(unit, asId(name)) as NameRule).map(({ id }) => id);
};
const [eight, tip, journal, weld] = [blades(8), measured('wheel.tip', 40), chose('shaft.bearing', 'journal'), chose('shaft.weld', 'beam')];

describe('which entries need be judged without (O7)', () => {
  test('[O7] one that by itself keeps a part out of its slot; not two that keep out the same', () => {
    expect(could('service:ling-3-cartridge', [eight])).toEqual([eight.id]);
    expect(could('service:ling-3-cartridge', [eight, tip])).toEqual([]);
    // Twelve blades keep every wheel out; the tip keeps Ling’s out besides, and not Cod’s.
    const twelve = blades(12);
    expect(could('service:ling-3-cartridge', [twelve, tip])).toEqual([]);
    expect(could('service:cod-1', [twelve, tip])).toEqual([twelve.id]);
  });

  test('[O7] none where another slot would still hold no part of the name', () => {
    expect(could('service:ling-3-cartridge', [eight, journal])).toEqual([]);
    expect(could('service:cod-1', [weld, blades(6)])).toEqual([blades(6).id]);
    // The list of parts asks for nothing.
    expect(could('parts', [eight, journal])).toEqual([eight.id, journal.id]);
    expect(could('parts', [eight, tip])).toEqual([]);
    // A slot that holds one of its parts, and not another, is in nobody’s way.
    const atlas = yard({
      families: { Cod: 'Quayside' },
      models: { 'Cod 1': { wheel: 'a d', shaft: 'x' }, 'Cod 2': { wheel: 'b', shaft: 'y' } },
      without: ['front', 'back', 'elbow', 'plate'],
    });
    const [wheel, shaft] = seen({ wheel: 'a', shaft: 'y' }) as [Observation, Observation];
    expect(could('service:cod-1', [wheel, shaft], {}, atlas)).toEqual([shaft.id]);
  });

  test('[O7] an absence is no entry', () => {
    expect(could('service:ling-3-cartridge', [eight], { absent: [asId('plate')] })).toEqual([eight.id]);
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
