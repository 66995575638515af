import { describe, expect, test } from 'vitest';
import { atlasOfPacks } from '../../../db/packs/atlas-of-packs.ts';
import {
  answer,
  asId,
  compileAtlas,
  type Feature,
  mayStop,
  nextCheck,
  type Observation,
  type ObservationId,
  oddsOf,
  planChecks,
  readListing,
  type Seen,
  type Sheet,
  type SheetId,
  startingAssumptions,
} from '../../../reasoner/index.ts';
import { blankSheet } from '../../../reasoner/plain/blank-sheet.ts';
import { drawingsOf } from '../../../renderer/drawings/drawings.ts';
import { vocabularyPack } from './demo-atlas.ts';

// What is left when the world is taken out, and what a shop of one's own begins with.
const atlas = atlasOfPacks([vocabularyPack]);
const compiled = compileAtlas(atlas);

const seen = ({ kind, options, plausible, unit }: Feature): Seen => {
  const within = plausible?.from ?? 5;
  switch (kind) {
    case 'count':
      return { kind, from: within, to: within };
    case 'measure':
      return { kind, value: unit === 'deg' ? 5 : within };
    case 'choice':
      return { kind, option: options?.[0]?.id ?? '' };
    case 'presence':
      return { kind, present: true };
    case 'mark':
      return { kind, text: 'AB' };
  }
};
const sheetOf = (features: readonly Feature[]): Sheet => ({
  ...blankSheet(asId<SheetId>('first')),
  claimed: 'Petrel 6 Cartridge',
  observations: features.map((feature, index): Observation => {
    const { kind } = feature;
    const sure = kind === 'measure' ? ({ kind: 'measured', u: 0.1 } as const) : ({ kind: 'seen' } as const);
    return { id: asId<ObservationId>(`o${index + 1}`), slot: feature.slot, feature: feature.id, value: seen(feature), sure };
  }),
});

describe('[A8] the vocabulary alone is an atlas', () => {
  test.each([
    ['nothing', []],
    ['one entry', atlas.features.slice(0, 1)],
    ['every feature of every slot', atlas.features],
  ])('[A8] with %s entered, a unit is a list of parts, whatever is claimed', (_, features) => {
    const judged = answer(compiled, sheetOf(features));
    if (judged.kind !== 'verdict') throw new Error(judged.kind);
    expect(judged.honest).toHaveLength(1);
    expect(judged.claim?.status).not.toBe('stands');
  });

  test('[A8] nothing is likely and no check is the next, and that is said', () => {
    const sheet = sheetOf(atlas.features.slice(0, 40));
    const odds = oddsOf(compiled, sheet, startingAssumptions);
    if (odds.kind === 'odds') expect(nextCheck(compiled, sheet, odds)).toBeNull();
    expect(planChecks(compiled, sheet, startingAssumptions)).toBeDefined();
    expect(mayStop(compiled, sheet, startingAssumptions)).toBeDefined();
  });

  test('[A8] a listing is read for the words of the trade', () => {
    expect(readListing(compiled, 'compressor wheel with 6 full blades').finds.length).toBeGreaterThan(0);
  });

  test('[A8] every slot has its pictures', () => {
    for (const { id } of atlas.slots) expect(drawingsOf(id, vocabularyPack).length, id).toBeGreaterThan(0);
  });
});
