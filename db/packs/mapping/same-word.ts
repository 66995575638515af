import type { Feature, Joint, Metal, Source } from '../../../reasoner/index.ts';
import { sameValue } from '../../../reasoner/plain/same-value.ts';
import type { Named, Values } from '../../atlas/list.ts';
import { everyList } from '../../atlas/lists.ts';
import type { VocabularyList } from '../mapped-word.ts';

/** A field that keeps one entry from standing in the place of another. */
export interface Unlike {
  readonly field: string;
  readonly found: string;
  readonly expected: string;
}

type Entry = Named & Values;

/** Fields in which the two must be one, list by list. */
const held: { readonly [L in VocabularyList]?: readonly string[] } = {
  ports: ['slot'],
  features: ['slot', 'kind'],
  operations: ['slot', 'does kind'],
  chains: ['leaves'],
  warmth: ['joint'],
  instruments: ['unit'],
  drawings: ['slot', 'drawing'],
};

const at = (entry: Entry, way: string): unknown => way.split(' ').reduce<unknown>((value, step) => (value as Values)[step], entry);

/**
 * Why one entry cannot stand in the place of another, field by field; none where it can. What is counted is never measured, and a length is no angle.
 * @param mine as it refers to what is here
 */
export const unlikeIn = (list: VocabularyList, mine: Entry, theirs: Entry): readonly Unlike[] => {
  const unlike: Unlike[] = (held[list] ?? []).flatMap((way) =>
    at(mine, way) === at(theirs, way)
      ? []
      : [{ field: way.split(' ')[0] as string, found: String(at(mine, way)), expected: String(at(theirs, way)) }],
  );
  if (list === 'features') {
    const [a, b] = [mine, theirs] as unknown as [Feature, Feature];
    if (a.kind === 'measure' && b.kind === 'measure' && a.unit !== b.unit)
      unlike.push({ field: 'unit', found: String(a.unit), expected: String(b.unit) });
    if (a.says !== undefined && b.says !== undefined && a.says !== b.says) unlike.push({ field: 'says', found: a.says, expected: b.says });
  }
  if (list === 'joints') {
    const [a, b] = [mine, theirs] as unknown as [Joint, Joint];
    if (!sameValue([a.a, a.b].sort(), [b.a, b.b].sort()))
      unlike.push({ field: 'a', found: `${a.a} to ${a.b}`, expected: `${b.a} to ${b.b}` });
  }
  return unlike;
};

/** Why the two may mean different things, though one can stand in the place of the other. */
export const doubtsOf = (list: VocabularyList, mine: Entry, theirs: Entry): readonly string[] => {
  switch (list) {
    case 'features':
      return featureDoubts(mine as unknown as Feature, theirs as unknown as Feature);
    case 'slots':
      return mine.group === theirs.group ? [] : [`There it is of the group ${mine.group}, here of the group ${theirs.group}.`];
    case 'sources': {
      const [a, b] = [mine, theirs] as unknown as [Source, Source];
      return a.kind === b.kind ? [] : [`There its kind is “${a.kind}”, here “${b.kind}”.`];
    }
    case 'metals': {
      const [a, b] = [mine, theirs] as unknown as [Metal, Metal];
      return Math.abs(a.expansion - b.expansion) <= 0.1 * Math.abs(b.expansion)
        ? []
        : [`There it expands by ${a.expansion}, here by ${b.expansion} millionths per K.`];
    }
    case 'joints': {
      const kinds = (joint: Entry) => (joint as unknown as Joint).rules.map(({ kind }) => kind).sort();
      return sameValue(kinds(mine), kinds(theirs)) ? [] : ['There it has rules of other kinds than here.'];
    }
    default:
      return [];
  }
};

const featureDoubts = (mine: Feature, theirs: Feature): readonly string[] => {
  const doubts: string[] = [];
  if (mine.kind === 'count' && mine.unit !== theirs.unit)
    doubts.push(`There it counts ${mine.unit ?? 'something'}, here ${theirs.unit ?? 'something'}.`);
  if ((mine.says === undefined) !== (theirs.says === undefined))
    doubts.push(
      mine.says === undefined ? `Here it says the ${theirs.says}, there it does not.` : `There it says the ${mine.says}, here it does not.`,
    );
  const [a, b] = [mine.plausible, theirs.plausible];
  if (a === undefined || b === undefined) return doubts;
  const ends = [b.from / a.from, b.to / a.to] as const;
  const far = a.to < b.from || b.to < a.from;
  const middle = Math.sqrt((b.from * b.to) / (a.from * a.to));
  const slip = slips.find(({ times }) => (far ? near(middle, times, 0.3) : ends.every((ratio) => near(ratio, times, 0.03))));
  const sign = mine.kind === 'count' ? '' : mine.unit === 'deg' ? '°' : ' mm';
  if (far || (slip !== undefined && mine.kind === 'measure'))
    doubts.push(
      `There ${a.from} to ${a.to}${sign} is plausible, here ${b.from} to ${b.to}${sign}${slip === undefined || mine.kind === 'count' ? '' : `: likely ${slip.likely}`}.`,
    );
  return doubts;
};

const near = (ratio: number, times: number, by: number): boolean => ratio >= times * (1 - by) && ratio <= times * (1 + by);

/** What makes a figure so many times another. */
const slips = [
  { times: 25.4, likely: 'inches there, millimetres here' },
  { times: 1 / 25.4, likely: 'millimetres there, inches here' },
  { times: 2, likely: 'the radius there, the diameter here' },
  { times: 1 / 2, likely: 'the diameter there, the radius here' },
] as const;

/** Fields the two say otherwise. What they are called is none: it is why they are not told from each other. */
export const otherwiseIn = (list: VocabularyList, mine: Entry, theirs: Entry): readonly string[] =>
  (everyList.find(({ name }) => name === list)?.fields ?? []).flatMap(({ name }) =>
    ['id', 'name', 'title', 'alsoCalled', 'options'].includes(name) || sameValue(mine[name] ?? null, theirs[name] ?? null) ? [] : [name],
  );
