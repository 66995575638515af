import type { EditedList } from '../../db/answers.ts';
import { entriesOf } from '../../db/changes/id-places.ts';
import { callingFields } from '../../db/edits/called-in.ts';
import { fold, tight } from '../../db/plain/fold.ts';
import type { CompiledAtlas, SlotId } from '../../reasoner/index.ts';
import type { EntryNamed } from '../bridge/edit-calls.ts';

type Entry = Readonly<Record<string, unknown>> & { readonly id: string };

/** An entry with what it is found by: what it is called, each as one word, and every word of that and of its second line. */
interface Called {
  readonly named: EntryNamed;
  readonly slot: unknown;
  readonly called: readonly string[];
  readonly words: readonly string[];
}

const texts = (value: unknown): readonly string[] => (Array.isArray(value) ? value.filter((each) => typeof each === 'string') : []);

const risesOf = (sides: unknown): readonly number[] =>
  Array.isArray(sides) ? sides.map((side: { readonly rise: number }) => side.rise) : [];

const kept = new WeakMap<CompiledAtlas, Map<EditedList, ReadonlyMap<string, Called>>>();

/** The entries of a list by id, made once for an atlas. */
const calledIn = (atlas: CompiledAtlas, list: EditedList): ReadonlyMap<string, Called> => {
  const lists = kept.get(atlas) ?? new Map<EditedList, ReadonlyMap<string, Called>>();
  kept.set(atlas, lists);
  const known = lists.get(list);
  if (known !== undefined) return known;
  const nameOf = namesIn(atlas);
  const made = new Map(
    entriesOf(atlas.data, list).map((entry): [string, Called] => {
      const named = nameOf(list, entry);
      const called = [named.name, entry.id, ...texts(entry.alsoCalled), ...texts(entry.numbers)];
      return [
        entry.id,
        { named, slot: entry.slot, called: called.map(tight), words: fold([...called, named.detail].join(' ')).split(' ') },
      ];
    }),
  );
  lists.set(list, made);
  return made;
};

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
  const ranked: EntryNamed[][] = [[], [], []];
  for (const { named, slot: of, called, words } of calledIn(atlas, list).values()) {
    if (slot !== null && of !== slot) continue;
    if (wanted.length === 0 || called.includes(whole)) ranked[0]?.push(named);
    else if (called.some((one) => one.startsWith(whole))) ranked[1]?.push(named);
    else if (wanted.every((want) => words.some((word) => word.startsWith(want)))) ranked[2]?.push(named);
  }
  return ranked.flat().slice(0, limit);
};

export const entryNamed = (atlas: CompiledAtlas, list: EditedList, id: string): EntryNamed | null =>
  calledIn(atlas, list).get(id)?.named ?? null;

/** What people call an entry, and what two of one name are told apart by. */
const namesIn = (atlas: CompiledAtlas): ((list: EditedList, entry: Entry) => EntryNamed) => {
  const slots = new Map<unknown, string>(atlas.data.slots.map(({ id, name }) => [id, name]));
  const makers = new Map<unknown, string>(atlas.data.makers.map(({ id, name }) => [id, name]));
  const families = new Map<unknown, string>(atlas.data.families.map(({ id, name }) => [id, name]));
  const joints = new Map<unknown, string>(atlas.data.joints.map(({ id, name }) => [id, name]));
  const makerName = (id: unknown): string => (id === null ? 'no maker’s name' : (makers.get(id) ?? String(id)));
  return (list, entry) => {
    const named = (detail: string): EntryNamed => ({
      id: entry.id,
      name: String(callingFields.map((field) => entry[field]).find((name) => name !== undefined && name !== null) ?? entry.id),
      detail,
    });
    switch (list) {
      case 'parts':
        return named([slots.get(entry.slot) ?? '', makerName(entry.maker), ...texts(entry.numbers).slice(0, 1)].join(' · '));
      case 'families':
        return named(makerName(entry.maker));
      case 'generations':
      case 'models':
        return named(families.get(entry.family) ?? '');
      case 'features':
      case 'ports':
      case 'operations':
      case 'drawings':
        return named(slots.get(entry.slot) ?? '');
      case 'warmth':
        return { ...named(`${risesOf(entry.sides).join(' and ')} K warmer`), name: joints.get(entry.joint) ?? entry.id };
      default:
        return named('');
    }
  };
};
