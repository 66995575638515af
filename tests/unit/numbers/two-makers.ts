import type { Atlas } from '../../../reasoner/index.ts';
import { littleAtlas } from '../reasoner/little-atlas.ts';

const sits = (slot: string, part: string) => ({ slot, part: `${slot}/${part}`, role: 'names' });

/**
 * The little atlas with a second maker, Harbour, of whom no rule of names is known. It lists a Skua 9, which no grammar reads, and a Cod 1 as
 * Quayside does: Quayside's has the wheel with 8 blades, Harbour's the one with 6.
 */
export const twoMakers = {
  ...littleAtlas,
  makers: [
    ...littleAtlas.makers,
    {
      id: 'harbour',
      name: 'Harbour',
      tradeNames: [{ name: 'Harbour Works', from: 1970, to: null }],
      plateRule: false,
      grammar: null,
      source: 'made-up',
    },
  ],
  families: [
    ...littleAtlas.families,
    {
      id: 'skua',
      name: 'Skua',
      maker: 'harbour',
      from: 1975,
      to: 1990,
      descendsFrom: [],
      succeeds: [],
      patternOf: [],
      about: '',
      source: 'made-up',
    },
  ],
  models: [
    ...littleAtlas.models,
    ...[
      ['skua-9', 'Skua 9'],
      ['harbour-cod-1', 'Cod 1'],
    ].map(([id, name]) => ({
      id,
      name,
      family: 'skua',
      generation: null,
      patternOf: null,
      from: 1975,
      to: 1990,
      allowed: [sits('housing', 'ling'), sits('wheel', 'ling'), sits('shaft', 'cartridge')],
      source: 'made-up',
    })),
  ],
} as unknown as Atlas;
