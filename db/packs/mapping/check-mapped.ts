import type { Atlas } from '../../../reasoner/index.ts';
import { sameValue } from '../../../reasoner/plain/same-value.ts';
import type { Named, Values } from '../../atlas/list.ts';
import { type Entries, everyList } from '../../atlas/lists.ts';
import type { Faults } from '../../read/faults.ts';
import type { PlaceOf } from '../lookups.ts';
import { type MappedWord, vocabularyLists } from '../mapped-word.ts';
import { mappedEntry } from './map-entries.ts';
import type { MappedIds } from './mapped-ids.ts';
import { unlikeIn } from './same-word.ts';

type Entry = Named & Values;

/**
 * What keeps the words of a pack from being mapped as is said of them (P16): a place that is none of the atlas's, or of another kind; each at the entry that was brought.
 * @param placeOf by where entries stand in the files that were brought
 */
export const checkMapped = (brought: Entries, ids: MappedIds, beside: Atlas, placeOf: PlaceOf, faults: Faults): void => {
  for (const list of vocabularyLists) {
    const one = everyList.find(({ name }) => name === list)?.one ?? list;
    const here = new Map(((beside[list] ?? []) as readonly unknown[] as readonly Entry[]).map((entry) => [entry.id, entry]));
    const ontoHere = new Map(ids.applied.flatMap((word) => (word.list === list && word.to !== undefined ? [[word.to, word.id]] : [])));
    const own = new Set((brought[list] as readonly Named[]).map(({ id }) => id));
    for (const [index, entry] of (brought[list] as readonly unknown[] as readonly Entry[]).entries()) {
      const word = ids.wordOf(list, entry.id);
      const fault = (field: string, found: string, expected: string): void => faults.add(placeOf(list, [index, field]), found, expected);
      if (word === null || (word.to === undefined && word.as === undefined)) {
        const onto = ontoHere.get(entry.id);
        const other = here.get(entry.id);
        if (onto !== undefined && other !== undefined && !sameValue(mappedEntry(list, entry, ids), other))
          fault(
            'id',
            `"${entry.id}", which is another ${one} here, and "${onto}" is mapped onto that`,
            'it to be mapped too, or called otherwise',
          );
        continue;
      }
      if (word.as !== undefined) {
        if (here.has(word.as) || own.has(word.as))
          fault('id', `"${entry.id}", to be called "${word.as}"`, `an id no other ${one} of this pack or the atlas has`);
        continue;
      }
      const { to } = word;
      const theirs = to === undefined ? undefined : here.get(to);
      if (to === undefined || theirs === undefined) {
        fault('id', `"${entry.id}", mapped onto "${to}"`, `the id of a ${one} of the atlas`);
        continue;
      }
      for (const { field, found, expected } of unlikeIn(list, mappedEntry(list, entry, ids), theirs))
        fault(field, `${found}, of "${entry.id}", which is mapped onto "${to}"`, `${expected}, as “${to}” has it; or another ${one}`);
      if (list === 'features') checkOptions(entry, theirs, word, (found, expected) => fault('options', found, expected));
    }
  }
};

const checkOptions = (mine: Entry, theirs: Entry, word: MappedWord, fault: (found: string, expected: string) => void): void => {
  const [options, those] = [mine, theirs].map(({ options }) => ((options ?? []) as readonly Named[]).map(({ id }) => id)) as [
    string[],
    string[],
  ];
  for (const [option, to] of Object.entries(word.options ?? {})) {
    if (!options.includes(option))
      fault(`no option "${option}", which is mapped`, `options of "${mine.id}": ${options.join(', ') || 'none'}`);
    else if (to !== null && !those.includes(to))
      fault(`"${option}", mapped onto "${to}"`, `an option of "${word.to}": ${those.join(', ') || 'none'}`);
  }
};
