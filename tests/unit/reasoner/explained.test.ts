import { describe, expect, test } from 'vitest';
import { type AnswerOptions, answer, asId, compileAtlas, explain, type Sheet } from '../../../reasoner/index.ts';
import { blades, littleAtlas, measured, sheetOf } from './little-atlas.ts';

const little = compileAtlas(littleAtlas);
/** The names whose conflicts and swap sets were enumerated. */
const explained = (options: AnswerOptions, rest: Partial<Sheet> = {}) => {
  const found = answer(little, sheetOf([blades(8)], rest), options);
  if (found.kind !== 'verdict') throw new Error('nothing here contradicts itself');
  for (const { conflicts, swaps } of found.names) expect(conflicts === null).toBe(swaps === null);
  return found.names.flatMap(({ name, conflicts }) => (conflicts === null ? [] : [String(name.id)]));
};

describe('whose reasons are enumerated (K1)', () => {
  test('[K1] the claimed name’s alone, where nothing else is asked, and only if it is ruled out', () => {
    expect(explained({}, { claimed: 'Ling 3 Cartridge' })).toEqual(['service:ling-3-cartridge']);
    expect(explained({ explain: 'claim' }, { claimed: 'Ling 3 Cartridge' })).toEqual(['service:ling-3-cartridge']);
    expect(explained({}, { claimed: 'Cod 1' })).toEqual([]);
    expect(explained({})).toEqual([]);
  });

  test('[K1] nobody’s, or those of every model and pattern core that is ruled out, whatever is claimed', () => {
    expect(explained({ explain: 'none' }, { claimed: 'Ling 3 Cartridge' })).toEqual([]);
    expect(explained({ explain: 'models' }, { claimed: 'Cod 1' })).toEqual(['service:ling-3-cartridge', 'pattern:lane-3']);
  });
});

describe('entries that cannot both hold (O6)', () => {
  const both = sheetOf([blades(6), blades(8)]);
  test('[O6] are said with the part they are of, and explain no name', () => {
    const found = answer(little, both);
    expect(found.kind === 'contradiction' && found.contradictions.map(({ sentence }) => sentence)).toEqual([
      'The compressor wheel cannot have both 6 blades and 8 blades: look again and keep one.',
    ]);
    expect(() => explain(little, both, asId('service:cod-1'))).toThrow('a contradictory sheet has no verdict to explain');
    expect(explain(little, sheetOf([blades(8), measured('wheel.tip', 40)]), asId('service:cod-1')).status).toBe('open');
  });
});
