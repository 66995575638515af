import type { Rates } from '../../../reasoner/index.ts';
import type { PartDraft, Plain } from '../pack/draft.ts';
import { numberFor } from '../pack/hash.ts';
import { exducerOf } from './merrowby/running-sizes.ts';

/** What a part of each slot costs at least, in crowns. A plate is not for sale. */
const from: Readonly<Record<string, number>> = {
  'compressor-housing': 118,
  'compressor-wheel': 84,
  backplate: 37,
  'bearing-housing': 129,
  'bearing-set': 42,
  shaft: 71,
  'turbine-wheel': 136,
  'heat-shield': 13,
  'turbine-housing': 173,
};

/** What a price hangs on: the part's id, with the wheel itself where the id says a running size. */
const keyOf = (id: string): string =>
  id.replace(
    /-(gannet|dunlin|fulmar|petrel|shearwater|skua|tern)-(\d+)-(?=compressor-)/,
    (_, bird, size) => `-${bird}-${exducerOf(Number(size))}-`,
  );

/**
 * The shop's hour and its price list. Issues of one drawing cost the same; pattern parts about half. What is too rare to have a price has none:
 * Shearwater parts, and heads nobody has cut open.
 */
export const ratesOf = (parts: readonly PartDraft[]): readonly Plain<Rates>[] => {
  const byId = new Map(parts.map((part) => [part.id, part]));
  const firstIssue = (part: PartDraft): PartDraft => {
    const before = part.supersedes === undefined ? undefined : byId.get(part.supersedes);
    return before === undefined ? part : firstIssue(before);
  };
  const priceOf = (part: PartDraft): number | null => {
    const least = from[part.slot];
    if (least === undefined || part.name.startsWith('Shearwater')) return null;
    const full = least + numberFor(keyOf(firstIssue(part).id), Math.round(least * 0.9));
    return part.maker === null ? Math.round(full * 0.52) : full;
  };
  return [
    {
      id: 'saltmarsh-counter',
      name: 'Saltmarsh Rotor & Fuel, counter prices (invented)',
      money: 'crowns',
      hour: 46,
      parts: parts.flatMap((part) => {
        const price = priceOf(part);
        return price === null ? [] : [{ part: part.id, price }];
      }),
      source: 'saltmarsh-book',
    },
  ];
};
