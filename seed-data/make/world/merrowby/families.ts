import type { Family, Generation } from '../../../../reasoner/index.ts';
import type { Plain } from '../../pack/draft.ts';

const family = (
  id: string,
  from: number,
  to: number | null,
  kin: { descendsFrom?: string[]; succeeds?: string[] },
  about: string,
): Plain<Family> => ({
  id,
  name: id.charAt(0).toUpperCase() + id.slice(1),
  maker: 'merrowby',
  from,
  to,
  descendsFrom: kin.descendsFrom ?? [],
  succeeds: kin.succeeds ?? [],
  patternOf: [],
  about,
  source: 'merrowby-list',
});

export const merrowbyFamilies = [
  family(
    'shearwater',
    1953,
    1972,
    {},
    'The first with the journal core: twelve turbine blades without cutback and no splitters on the compressor wheel.',
  ),
  family(
    'dunlin',
    1961,
    1988,
    { descendsFrom: ['shearwater'] },
    'The small one: the Shearwater core under an eleven-bladed head and a small compressor housing.',
  ),
  family(
    'fulmar',
    1966,
    1984,
    { descendsFrom: ['shearwater'] },
    'The large one of the journal years, with a flanged outlet; the same bearing housing and shaft as Dunlin.',
  ),
  family(
    'tern',
    1971,
    1997,
    { succeeds: ['dunlin'] },
    'Six full and six splitter blades at last; nothing between weld and stub differs from Dunlin.',
  ),
  family(
    'gannet',
    1979,
    2001,
    { descendsFrom: ['tern'], succeeds: ['fulmar'] },
    'Ten turbine blades cut back by about half. The last ones turn on a cartridge, under the same head.',
  ),
  family(
    'petrel',
    1994,
    2012,
    { descendsFrom: ['gannet'] },
    'Cartridge and water jacket in every one; ten turbine blades, strongly cut back.',
  ),
  family(
    'skua',
    2008,
    null,
    { succeeds: ['petrel'] },
    'First a Petrel with eleven turbine blades, then new wheels with ten and a stouter turbine end.',
  ),
] as const;

export const merrowbyGenerations: readonly Plain<Generation>[] = [
  { id: 'skua-first', family: 'skua', name: 'first Skua', from: 2008, to: 2016, succeeds: null, source: 'merrowby-list' },
  { id: 'skua-second', family: 'skua', name: 'second Skua', from: 2015, to: null, succeeds: 'skua-first', source: 'merrowby-list' },
  { id: 'gannet-journal', family: 'gannet', name: 'journal Gannet', from: 1979, to: 1996, succeeds: null, source: 'merrowby-list' },
  {
    id: 'gannet-cartridge',
    family: 'gannet',
    name: 'cartridge Gannet',
    from: 1992,
    to: 2001,
    succeeds: 'gannet-journal',
    source: 'merrowby-list',
  },
];
