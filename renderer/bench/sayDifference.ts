import type { SheetDifference, SheetEntry } from '../../reasoner/plain/sheets-merged.ts';
import { capital } from '../../reasoner/plain/text.ts';
import type { Words } from '../bridge/words.ts';
import type { SideRow } from '../look/BothSides.tsx';
import { sayObservation } from '../values/sayings.ts';

/** A difference between two states of a sheet, as a row that can be read and chosen from. */
export const sayDifference = ({ key, changed, mine, theirs, base }: SheetDifference, words: Words): SideRow => {
  const entry = mine ?? theirs ?? base;
  return {
    key,
    changed,
    what: entry === null ? key : whatOf(entry, words),
    mine: mine === null ? null : sayEntry(mine, words),
    theirs: theirs === null ? null : sayEntry(theirs, words),
  };
};

const whatOf = (entry: SheetEntry, words: Words): string => {
  switch (entry.kind) {
    case 'title':
      return 'Title';
    case 'story':
      return 'Story';
    case 'serial':
      return 'Serial number';
    case 'claim':
      return 'Offered as';
    case 'kind':
      return 'What the sheet is of';
    case 'observation':
      return capital(words.slotName(entry.observation.slot));
    case 'unseen':
      return `${capital(words.slotName(entry.unseen.slot))}, not seen`;
    case 'absent':
      return `${capital(words.slotName(entry.slot))}, whether it is there`;
    case 'chosen':
      return `${capital(words.slotName(entry.slot))}, part chosen`;
  }
};

const sayEntry = (entry: SheetEntry, words: Words): string => {
  switch (entry.kind) {
    case 'title':
    case 'story':
    case 'serial':
      return entry.text;
    case 'claim':
      return [entry.claimed ?? 'no name', ...(entry.claimedMaker === null ? [] : [words.makerName(entry.claimedMaker)])].join(', ');
    case 'kind':
      return entry.is === 'found' ? 'a unit as found' : 'a planned build';
    case 'observation': {
      const { observation } = entry;
      const more = [
        ...(observation.instrument === undefined ? [] : [`by ${observation.instrument}`]),
        ...(observation.confirmed === true ? ['confirmed as read'] : []),
        ...(observation.note === undefined || observation.note === '' ? [] : [`note: ${observation.note}`]),
      ];
      return [sayObservation(words.feature(observation.feature), observation, words.unit), ...more].join('; ');
    }
    case 'unseen':
      return `${words.featureName(entry.unseen.feature)}: ${entry.unseen.why}`;
    case 'absent':
      return 'not with the unit';
    case 'chosen':
      return entry.part;
  }
};
