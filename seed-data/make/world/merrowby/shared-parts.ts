import type { PartDraft } from '../../pack/draft.ts';
import { blank, mark, markOrBlank } from '../../pack/facts.ts';
import { backplate } from '../../parts/compressor-end.ts';
import { bearingHousing, bearingSet, heatShield, shaft } from '../../parts/core.ts';
import type { CorePattern } from '../../parts/core-pattern.ts';
import { headIn, issuesIn, measuredInTheShop, unnamedHead } from '../house.ts';
import { cartridgeCore, type FaceSize, gannetCartridgeCore, journalCore, merrowbyFaces, secondSkuaCore } from './core-patterns.ts';
import { merrowbyCasting, merrowbyHouse } from './maker.ts';

export const head = headIn(merrowbyHouse);
export const issues = issuesIn(merrowbyHouse);

export const merrowbyBackplate = (core: 'journal' | 'cartridge', size: FaceSize): PartDraft =>
  backplate(head('backplate', `merrowby-${core}-backplate-${size}`, `Merrowby backplate, ${core} core, ${size}`), {
    face: merrowbyFaces[size],
    core: core === 'journal' ? journalCore : cartridgeCore,
    ribs: { small: 5, middle: 7, large: 9 }[size] + (core === 'journal' ? 0 : 1),
    mark: markOrBlank(core === 'journal' ? 'LISLE 5R' : 'MERROWBY 6R'),
  });

/** Its number of the Lisle years stands beside the later one. */
const withOldNumber = (old: string, part: PartDraft): PartDraft => ({ ...part, numbers: [old, ...part.numbers] });

/** One casting under Shearwater, Dunlin, Fulmar, Tern and Gannet; it bore three of the maker's four names. */
export const journalBearingHousing = withOldNumber(
  'L 1177',
  bearingHousing(head('bearing-housing', 'merrowby-journal-bearing-housing', 'Merrowby journal bearing housing'), {
    core: journalCore,
    oilFeed: 'm11x1',
    oilDrain: 'two-bolt',
    ribPattern: 'straight',
    ribs: 4,
    castName: merrowbyCasting({ from: 1953, to: 2001 }),
    castMark: mark('HULL 5 oil'),
  }),
);

/** Three issues: first a wider drain, then a fifth rib. The last takes the place of the first two everywhere. */
export const cartridgeBearingHousings = issues(
  'bearing-housing',
  'merrowby-cartridge-bearing-housing',
  'Merrowby cartridge bearing housing',
  3,
  (issueHead, issue, letter) =>
    bearingHousing(issueHead, {
      core: cartridgeCore,
      oilFeed: 'm10x1',
      oilDrain: issue === 0 ? 'two-bolt' : 'four-bolt',
      ribPattern: 'ring',
      ribs: issue === 2 ? 5 : 4,
      castName: merrowbyCasting(issue === 0 ? { from: 1994, to: 2003 } : { from: issue === 1 ? 2001 : 2009, to: null }),
      castMark: mark(`HULL 6 water ${letter}`),
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
    castMark: mark('HULL 6 G'),
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
    castMark: mark('HULL 8 water'),
  },
);

/** Drawn four times; every issue runs in every journal core ever made. */
export const journalSets = issues('bearing-set', 'merrowby-journal-set', 'Merrowby journal set', 4, (issueHead, issue, letter) =>
  bearingSet(issueHead, {
    core: journalCore,
    bushes: 2,
    balls: 0,
    thrust: issue < 2 ? 'split-ring' : 'full-ring',
    needsWater: false,
    mark: markOrBlank(`ROPE ${letter}`),
  }),
);

export const cartridges = issues('bearing-set', 'merrowby-cartridge', 'Merrowby ball-bearing cartridge', 2, (issueHead, issue, letter) =>
  bearingSet(issueHead, {
    core: cartridgeCore,
    bushes: 0,
    balls: issue === 0 ? 18 : 16,
    thrust: 'in-cartridge',
    needsWater: true,
    mark: mark(`MERROWBY C6${letter}`),
  }),
);

/** A workshop's copy for overhaul: no maker's name on it, and good enough for the shop to fit. */
export const unnamedJournalSet = bearingSet(
  unnamedHead('unnamed-journal-set-for-merrowby', 'journal set for the Merrowby journal core, no maker’s name', 'merrowby-journal-set'),
  { core: journalCore, bushes: 2, balls: 0, thrust: 'full-ring', needsWater: false, mark: blank },
);

const measuredWeld = (part: PartDraft): PartDraft => measuredInTheShop(part, 'weld-pattern', 'weld-spigot');

/** The same from the weld to the threaded end, whatever head is on it. */
export const journalShaft = withOldNumber(
  'L 1203',
  measuredWeld(
    shaft(head('shaft', 'merrowby-journal-shaft', 'Merrowby journal shaft'), { core: journalCore, steps: 4, mark: markOrBlank('MAST 5') }),
  ),
);
export const cartridgeShaft = measuredWeld(
  shaft(head('shaft', 'merrowby-cartridge-shaft', 'Merrowby cartridge shaft'), { core: cartridgeCore, steps: 6, mark: mark('MAST 6') }),
);
export const gannetCartridgeShaft = measuredWeld(
  shaft(head('shaft', 'merrowby-gannet-cartridge-shaft', 'Gannet cartridge shaft'), {
    core: gannetCartridgeCore,
    steps: 6,
    mark: mark('MAST 6 G'),
  }),
);
export const secondSkuaShaft = measuredWeld(
  shaft(head('shaft', 'merrowby-skua-2-shaft', 'second Skua shaft'), { core: secondSkuaCore, steps: 6, mark: mark('MAST 8') }),
);

/** The maker's shield and the one everybody buys. */
const shieldsOf = (id: string, name: string, core: CorePattern, outside: number, slots: number): readonly PartDraft[] => [
  heatShield(head('heat-shield', id, name), { core, outside, dish: 6.8, form: 'pressed', slots, mark: markOrBlank('HATCH') }),
  heatShield(unnamedHead(`unnamed-${id}`, `${name}, no maker’s name`, id), {
    core,
    outside: outside - 0.7,
    dish: 6.4,
    form: 'pressed',
    slots: 0,
    mark: blank,
  }),
];

export const journalShields = shieldsOf('merrowby-journal-heat-shield', 'Merrowby heat shield, journal core', journalCore, 62.7, 3);
export const cartridgeShields = shieldsOf('merrowby-cartridge-heat-shield', 'Merrowby heat shield, cartridge core', cartridgeCore, 68.4, 6);
export const secondSkuaShields = shieldsOf('merrowby-skua-2-heat-shield', 'Merrowby heat shield, second Skua', secondSkuaCore, 73.1, 6);
