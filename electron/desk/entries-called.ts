import type { EditedList } from '../../db/answers.ts';
import { entriesOf } from '../../db/changes/id-places.ts';
import { fold, tight } from '../../db/tables/fold.ts';
import type { CompiledAtlas, SlotId } from '../../reasoner/index.ts';
import type { EntryNamed } from '../bridge/edit-calls.ts';

type Entry = Readonly<Record<string, unknown>> & { readonly id: string };
const texts = (value: unknown): readonly string[] => (Array.isArray(value) ? value.filter((each) => typeof each === 'string') : []);

/**
 * Entries by what is typed of a name, another name, a number or an id, best first: one that is called just so, then those that begin with it, then those every word
 * typed begins a word of. Where nothing is typed, all in the order of the atlas.
 */
export const entriesCalled = (
  atlas: CompiledAtlas,
  list: EditedList,
  text: string,
  slot: SlotId | null,
  limit: number,
): readonly EntryNamed[] => {
  const wanted = fold(text)
    .split(' ')
    .filter((word) => word !== '');
  const whole = tight(text);
  const found = entriesOf(atlas.data, list).flatMap((entry, order) => {
    if (slot !== null && entry.slot !== slot) return [];
    const named = nameIn(atlas, list, entry);
    if (wanted.length === 0) return [{ named, order, rank: 0 }];
    const called = [named.name, entry.id, ...texts(entry.alsoCalled), ...texts(entry.numbers)];
    if (called.some((one) => tight(one) === whole)) return [{ named, order, rank: 0 }];
    if (called.some((one) => tight(one).startsWith(whole))) return [{ named, order, rank: 1 }];
    const words = fold([...called, named.detail].join(' ')).split(' ');
    return wanted.every((want) => words.some((word) => word.startsWith(want))) ? [{ named, order, rank: 2 }] : [];
  });
  return found
    .sort((a, b) => a.rank - b.rank || a.order - b.order)
    .slice(0, limit)
    .map(({ named }) => named);
};

export const entryNamed = (atlas: CompiledAtlas, list: EditedList, id: string): EntryNamed | null => {
  const entry = entriesOf(atlas.data, list).find((one) => one.id === id);
  return entry === undefined ? null : nameIn(atlas, list, entry);
};

/** What people call it, and what two of one name are told apart by. */
const nameIn = (atlas: CompiledAtlas, list: EditedList, entry: Entry): EntryNamed => {
  const slotName = (id: unknown): string => atlas.data.slots.find((one) => one.id === id)?.name ?? '';
  const makerName = (id: unknown): string =>
    id === null ? 'no maker’s name' : (atlas.data.makers.find((one) => one.id === id)?.name ?? String(id));
  const familyName = (id: unknown): string => atlas.data.families.find((one) => one.id === id)?.name ?? String(id);
  const name = String(entry.name ?? entry.title ?? entry.drawing ?? entry.id);
  switch (list) {
    case 'parts':
      return {
        id: entry.id,
        name,
        detail: [slotName(entry.slot), makerName(entry.maker), ...texts(entry.numbers).slice(0, 1)].join(' · '),
      };
    case 'families':
      return { id: entry.id, name, detail: makerName(entry.maker) };
    case 'generations':
    case 'models':
      return { id: entry.id, name, detail: familyName(entry.family) };
    case 'features':
    case 'ports':
    case 'operations':
    case 'drawings':
      return { id: entry.id, name, detail: slotName(entry.slot) };
    default:
      return { id: entry.id, name, detail: '' };
  }
};
