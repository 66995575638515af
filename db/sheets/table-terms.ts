import type { Atlas, Feature, Maker, Slot, SlotId } from '../../reasoner/index.ts';
import { groupBy } from '../plain/group-by.ts';
import type { SlipOf } from '../read/asked.ts';

/** The terms a table may use: ids, and the names people write; and what looks for slips in its figures, where slips are looked for. */
export interface TableTerms extends Pick<Atlas, 'slots' | 'features' | 'makers'> {
  readonly slipOf?: SlipOf;
}

/** The terms by what they are called, so that no row looks through them all; each lookup gives all that are called so, since a name of several is nobody's. */
export interface Named extends Pick<TableTerms, 'slots'> {
  readonly slot: (text: string) => readonly Slot[];
  readonly feature: (id: string) => readonly Feature[];
  readonly featureOf: (slot: SlotId, text: string) => readonly Feature[];
  readonly maker: (text: string) => readonly Maker[];
  readonly slipOf: SlipOf | undefined;
}

export const named = ({ slots, features, makers, slipOf }: TableTerms): Named => {
  const inSlot = new Map([...groupBy(features, ({ slot }) => slot)].map(([slot, own]) => [slot, byName(own)]));
  const maker = byName(makers);
  const traded = groupBy(
    makers.flatMap((each) => [...new Set(each.tradeNames.map(({ name }) => name.toLowerCase()))].map((name) => ({ name, each }))),
    ({ name }) => name,
  );
  return {
    slots,
    slot: byName(slots),
    feature: byId(features),
    featureOf: (slot, text) => inSlot.get(slot)?.(text) ?? [],
    maker: (text) => {
      const own = maker(text);
      return own.length > 0 ? own : (traded.get(text.toLowerCase()) ?? []).map(({ each }) => each);
    },
    slipOf,
  };
};

const byId = <T extends { readonly id: string }>(list: readonly T[]): ((text: string) => readonly T[]) => {
  const ids = groupBy(list, ({ id }): string => id);
  return (text) => ids.get(text) ?? [];
};

/** By its id, else by its name, whatever its capitals. */
const byName = <T extends { readonly id: string; readonly name: string }>(list: readonly T[]): ((text: string) => readonly T[]) => {
  const ids = byId(list);
  const names = groupBy(list, ({ name }) => name.toLowerCase());
  return (text) => {
    const own = ids(text);
    return own.length > 0 ? own : (names.get(text.toLowerCase()) ?? []);
  };
};

/** To stand after "expected", where several are called so. */
export const oneOf = (several: readonly { readonly id: string }[]): string =>
  `the id of one of those called so: ${several.map(({ id }) => id).join(' or ')}`;
