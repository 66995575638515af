import type { Outcome, Store } from '../../db/index.ts';
import { numberSoFar } from '../../reasoner/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { NumberFound } from '../bridge/number-calls.ts';
import { well } from '../bridge/reply.ts';
import type { KeptAtlas } from './kept-atlas.ts';

/** Number first: a part number answers what it is, where it goes, and what of it lies here. */
export const numberCalls = (store: Store, kept: KeptAtlas): Calls<'number'> => ({
  'number.find': ({ text }) => numberFound(store, text),
  'number.soFar': async ({ text, says, entry }) => well(numberSoFar(await kept.now(), text, { says, entry })),
});

/** What the atlas knows of a number, with what lies on the shelves of it and of what may go in its place. */
export const numberFound = async ({ graph, stock }: Store, text: string): Promise<Outcome<NumberFound>> => {
  const found = await graph.number(text);
  if (!found.ok) return found;
  const { typed, parts, near } = found.value;
  const named = [
    ...parts.flatMap((one) => [
      one.part,
      ...one.tookThePlaceOf,
      ...one.replacedBy,
      ...one.others.map(({ part }) => part),
      ...(one.alike ?? []),
    ]),
    ...near.map(({ part }) => part),
  ].map(({ id }) => id as string);
  const listed = await stock.of(named, typed);
  return listed.ok ? well({ ...found.value, stock: listed.value }) : listed;
};
