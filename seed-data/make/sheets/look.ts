import type { Feature } from '../../../reasoner/index.ts';
import type { FactDraft, PartDraft, Plain } from '../pack/draft.ts';
import { rounded } from '../pack/facts.ts';
import { type Entry, measured, seenChoice, seenCount, seenMark, seenPresence } from './sheet.ts';

/** Looks at a catalogued part as the shop would: what `look('merrowby-tern-7-compressor-wheel', 'full-blades')` enters on a sheet. */
export type Look = (part: string, ...shorts: readonly string[]) => readonly Entry[];

/**
 * Builds `Look` over the parts of the pack. A measure is read at the middle of the part's limits, to the instrument's
 * resolution, and half of that is its standard uncertainty.
 */
export const lookingAt = (parts: readonly PartDraft[], features: readonly Plain<Feature>[]): Look => {
  const byId = new Map(parts.map((part) => [part.id, part]));
  const featureById = new Map(features.map((feature) => [feature.id, feature]));
  return (id, ...shorts) => {
    const part = byId.get(id);
    if (part === undefined) throw new Error(`no part ${id} to look at`);
    return shorts.map((short) => {
      const feature = featureById.get(`${part.slot}-${short}`);
      const fact = part.facts[`${part.slot}-${short}`];
      if (feature === undefined || fact === undefined) throw new Error(`${id} has no ${short} to look at`);
      return seen(part.slot, short, fact, feature.resolution ?? 0.1);
    });
  };
};

const seen = (slot: string, short: string, fact: FactDraft, resolution: number): Entry => {
  switch (fact.kind) {
    case 'count':
      return seenCount(slot, short, fact.from);
    case 'choice':
      return seenChoice(slot, short, fact.anyOf[0] ?? '');
    case 'presence':
      return seenPresence(slot, short, fact.present);
    case 'mark':
      return seenMark(slot, short, fact.anyOf[0] ?? null);
    case 'measure': {
      const middle = fact.nominal + (fact.lower + fact.upper) / 2;
      return measured(slot, short, rounded(Math.round(middle / resolution) * resolution), resolution / 2);
    }
    case 'coded measure':
    case 'not known':
      throw new Error(`${slot}-${short} cannot be read off the drawing; enter it by hand`);
  }
};
