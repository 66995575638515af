import type { PartDraft } from '../../pack/draft.ts';
import { mark, markOrBlank } from '../../pack/facts.ts';
import { backplate } from '../../parts/compressor-end.ts';
import { bearingHousing, bearingSet, heatShield, shaft } from '../../parts/core.ts';
import type { CorePattern } from '../../parts/core-pattern.ts';
import type { PartHead } from '../../parts/part.ts';
import { cartridgeCore, type FaceSize, gannetCartridgeCore, journalCore, merrowbyFaces, secondSkuaCore } from './core-patterns.ts';
import { merrowbyCasting, merrowbyNumber } from './maker.ts';

/** Issues of one drawing: a, b, c … each takes the place of the one before and keeps its running number. */
const letters = 'abcdefgh';

export const head = (slot: string, id: string, name: string): PartHead => ({
  id,
  name,
  maker: 'merrowby',
  numbers: [merrowbyNumber(slot, id)],
  source: 'merrowby-list',
});

/** The head of issue `number` (from 0) of a part drawn several times. The first keeps the plain id. */
export const issueHead = (slot: string, id: string, name: string, number: number): PartHead => {
  const idOf = (issue: number) => (issue === 0 ? id : `${id}-${letters[issue]}`);
  return {
    ...head(slot, id, `${name}, issue ${letters[number]}`),
    id: idOf(number),
    numbers: [merrowbyNumber(slot, id, number + 1)],
    ...(number === 0 ? {} : { supersedes: idOf(number - 1) }),
  };
};

export const merrowbyBackplate = (core: 'journal' | 'cartridge', size: FaceSize): PartDraft => {
  const id = `merrowby-${core}-backplate-${size}`;
  return backplate(head('backplate', id, `Merrowby backplate, ${core} core, ${size}`), {
    face: merrowbyFaces[size],
    core: core === 'journal' ? journalCore : cartridgeCore,
    ribs: { small: 5, middle: 7, large: 9 }[size] + (core === 'journal' ? 0 : 1),
    mark: markOrBlank(core === 'journal' ? 'LISLE 5R' : 'MERROWBY 6R'),
  });
};

/** One casting under Shearwater, Dunlin, Fulmar, Tern and Gannet; it bore three of the maker's four names. */
export const journalBearingHousing = bearingHousing(
  {
    ...head('bearing-housing', 'merrowby-journal-bearing-housing', 'Merrowby journal bearing housing'),
    numbers: ['L 1177', merrowbyNumber('bearing-housing', 'merrowby-journal-bearing-housing')],
  },
  {
    core: journalCore,
    oilFeed: 'm11x1',
    oilDrain: 'two-bolt',
    ribPattern: 'straight',
    ribs: 4,
    castName: merrowbyCasting({ from: 1953, to: 2001 }),
    castMark: mark('LB 5 oil'),
  },
);

/** Three issues: a wider drain, then a fifth rib. The last takes the place of the first two everywhere. */
export const cartridgeBearingHousings: readonly PartDraft[] = [0, 1, 2].map((issue) =>
  bearingHousing(issueHead('bearing-housing', 'merrowby-cartridge-bearing-housing', 'Merrowby cartridge bearing housing', issue), {
    core: cartridgeCore,
    oilFeed: 'm10x1',
    oilDrain: issue === 0 ? 'two-bolt' : 'four-bolt',
    ribPattern: 'ring',
    ribs: issue === 2 ? 5 : 4,
    castName: merrowbyCasting(issue === 0 ? { from: 1994, to: 2003 } : { from: issue === 1 ? 2001 : 2009, to: null }),
    castMark: mark(`LB 6 water ${letters[issue]}`),
  }),
);

export const gannetCartridgeBearingHousing = bearingHousing(
  head('bearing-housing', 'merrowby-gannet-cartridge-bearing-housing', 'Gannet cartridge bearing housing'),
  {
    core: gannetCartridgeCore,
    oilFeed: 'm10x1',
    oilDrain: 'two-bolt',
    ribPattern: 'straight',
    ribs: 4,
    castName: merrowbyCasting({ from: 1992, to: 2001 }),
    castMark: mark('LB 6 G'),
  },
);

export const secondSkuaBearingHousing = bearingHousing(
  head('bearing-housing', 'merrowby-skua-2-bearing-housing', 'second Skua bearing housing'),
  {
    core: secondSkuaCore,
    oilFeed: 'm10x1',
    oilDrain: 'four-bolt',
    ribPattern: 'ring',
    ribs: 7,
    castName: merrowbyCasting({ from: 2015, to: null }),
    castMark: mark('LB 8 water'),
  },
);

/** Drawn four times; every issue runs in every journal core ever made. */
export const journalSets: readonly PartDraft[] = [0, 1, 2, 3].map((issue) =>
  bearingSet(issueHead('bearing-set', 'merrowby-journal-set', 'Merrowby journal set', issue), {
    core: journalCore,
    bushes: 2,
    balls: 0,
    thrust: issue < 2 ? 'split-ring' : 'full-ring',
    needsWater: false,
    mark: markOrBlank(`LS ${letters[issue]}`),
  }),
);

export const cartridges: readonly PartDraft[] = [0, 1].map((issue) =>
  bearingSet(issueHead('bearing-set', 'merrowby-cartridge', 'Merrowby ball-bearing cartridge', issue), {
    core: cartridgeCore,
    bushes: 0,
    balls: issue === 0 ? 18 : 16,
    thrust: 'in-cartridge',
    needsWater: true,
    mark: mark(`MERROWBY C6${letters[issue]}`),
  }),
);

/** A workshop's copies for overhaul: no maker's name on them, and good enough for the shop to fit. */
export const unnamedJournalSet = bearingSet(
  {
    id: 'unnamed-journal-set-for-merrowby',
    name: 'journal set for the Merrowby journal core, no maker’s name',
    maker: null,
    numbers: [],
    patternOf: 'merrowby-journal-set',
    source: 'saltmarsh-book',
  },
  { core: journalCore, bushes: 2, balls: 0, thrust: 'full-ring', needsWater: false, mark: { kind: 'mark', anyOf: [], blank: true } },
);

const journalShaftHead = head('shaft', 'merrowby-journal-shaft', 'Merrowby journal shaft');
/** The same from the weld to the threaded end, whatever head is on it. */
export const journalShaft = shaft(
  { ...journalShaftHead, numbers: ['L 1203', ...journalShaftHead.numbers] },
  { core: journalCore, steps: 4, mark: markOrBlank('LW 5') },
);
export const cartridgeShaft = shaft(head('shaft', 'merrowby-cartridge-shaft', 'Merrowby cartridge shaft'), {
  core: cartridgeCore,
  steps: 6,
  mark: mark('LW 6'),
});
export const gannetCartridgeShaft = shaft(head('shaft', 'merrowby-gannet-cartridge-shaft', 'Gannet cartridge shaft'), {
  core: gannetCartridgeCore,
  steps: 6,
  mark: mark('LW 6 G'),
});
export const secondSkuaShaft = shaft(head('shaft', 'merrowby-skua-2-shaft', 'second Skua shaft'), {
  core: secondSkuaCore,
  steps: 6,
  mark: mark('LW 8'),
});

const shieldOf = (id: string, name: string, core: CorePattern, outside: number, slots: number): readonly PartDraft[] => [
  heatShield(head('heat-shield', id, name), { core, outside, dish: 6.8, form: 'pressed', slots, mark: markOrBlank('TS') }),
  heatShield(
    { id: `unnamed-${id}`, name: `${name}, no maker’s name`, maker: null, numbers: [], patternOf: id, source: 'saltmarsh-book' },
    { core, outside: outside - 0.7, dish: 6.4, form: 'pressed', slots: 0, mark: { kind: 'mark', anyOf: [], blank: true } },
  ),
];

export const journalShields = shieldOf('merrowby-journal-heat-shield', 'Merrowby heat shield, journal core', journalCore, 62.7, 3);
export const cartridgeShields = shieldOf('merrowby-cartridge-heat-shield', 'Merrowby heat shield, cartridge core', cartridgeCore, 68.4, 6);
export const secondSkuaShields = shieldOf('merrowby-skua-2-heat-shield', 'Merrowby heat shield, second Skua', secondSkuaCore, 73.1, 6);
