import type { Atlas } from '../../../reasoner/index.ts';
import { sameValue } from '../../../reasoner/plain/same-value.ts';
import { list as listed } from '../../../reasoner/plain/text.ts';
import type { Named, Values } from '../../atlas/list.ts';
import { type Entries, everyList } from '../../atlas/lists.ts';
import type { Pack } from '../../atlas/pack.ts';
import { fold } from '../../plain/fold.ts';
import { type LikelyWord, type MappedWord, type VocabularyList, vocabularyLists, type WordProposed } from '../mapped-word.ts';
import { mappedEntry } from './map-entries.ts';
import { MappedIds } from './mapped-ids.ts';
import { type Called, calledOf, likeness, optionsAlike, sharedOn, tradeWords, ways } from './names-alike.ts';
import { doubtsOf, otherwiseIn, unlikeIn } from './same-word.ts';

type Entry = Named & Values;

/** A pack on its way in, as it was brought. */
export interface Coming extends Pick<Pack, 'parts'> {
  readonly id: string;
  readonly files: Entries;
  /** What was said of its words before; none where it was never here. */
  readonly kept: readonly MappedWord[];
  /** What somebody says now. */
  readonly now: readonly MappedWord[];
  /** Its edition that is held, whose words stand as they are; null where there is none. */
  readonly held: Pack | null;
}

/** How many may be meant are named. */
const mostLikely = 3;
/** Less of their words in common says nothing. */
const leastLike = 0.34;

/**
 * What of the words packs bring may be said by entries of the atlas under other ids, word by word (P16). Of each at most one is proposed, and only where it alone is called so, there
 * and here, and nothing speaks against it; else what may be meant is named and it stays the pack's own, until somebody says otherwise. Words the atlas has as they are brought, and
 * words nothing here is like, are none of them.
 * @param packs each after those it leans on
 * @param atlas what is held beside them
 */
export const proposedWords = (packs: readonly Coming[], atlas: Atlas): readonly WordProposed[] => {
  const files = Object.fromEntries(
    everyList.map(({ name }) => [name, onceEach(packs.flatMap((pack) => pack.files[name] as readonly Named[]))]),
  ) as unknown as Entries;
  const used = usedOptions(packs);
  const trade = tradeWords([...(files.terms as readonly unknown[]), ...((atlas.terms ?? []) as readonly unknown[])] as readonly Values[]);
  const [own, wouldBe]: [MappedWord[], MappedWord[]] = [[], []];
  const proposed: WordProposed[] = [];
  for (const list of vocabularyLists) {
    const words = wordsOf(list, { packs, files, atlas, used, trade, own, wouldBe });
    proposed.push(...words);
    own.push(...saidOf(words));
    wouldBe.push(...saidOf(words), ...words.flatMap(ifItDidNotStand));
  }
  return proposed;
};

/** The same, with those that stay as they are, so that what was said of them before holds no more. */
export const allSaid = (words: readonly WordProposed[]): readonly MappedWord[] => {
  const said = new Set(saidOf(words).map(({ list, id }) => `${list} ${id}`));
  return [...saidOf(words), ...words.flatMap(({ list, id }) => (said.has(`${list} ${id}`) ? [] : [{ list, id }]))];
};

/** What proposals say once nobody corrects them. */
export const saidOf = (words: readonly WordProposed[]): readonly MappedWord[] =>
  words.flatMap(({ list, id, to, as, options }): readonly MappedWord[] => {
    if (as !== null) return [{ list, id, as }];
    if (to === null) return [];
    const otherwise = (options ?? []).filter((option) => option.to !== option.id);
    return [{ list, id, to, ...(otherwise.length === 0 ? {} : { options: Object.fromEntries(otherwise.map((one) => [one.id, one.to])) }) }];
  });

const weakly = 'They share some of their words.';

/** What stands as the pack's own, with what it would be: what is a part of it is then still found. */
const ifItDidNotStand = ({ list, id, to, said, likely, warnings }: WordProposed): readonly MappedWord[] => {
  const [first] = likely;
  return to === null && said === 'own' && first !== undefined && first.why !== weakly && warnings.length === 0
    ? [{ list, id, to: first.id }]
    : [];
};

interface Over {
  readonly packs: readonly Coming[];
  readonly files: Entries;
  readonly atlas: Atlas;
  readonly used: ReadonlyMap<string, ReadonlyMap<string, number>>;
  readonly trade: (text: string) => string;
  /** What was proposed of the lists before. */
  readonly own: readonly MappedWord[];
  /** With what would be, if nothing stood as it does. */
  readonly wouldBe: readonly MappedWord[];
}

interface Mine {
  readonly entry: Entry;
  readonly mapped: Entry;
  readonly pack: Coming;
  readonly kept: MappedWord | null;
  readonly now: boolean;
  readonly can: readonly Entry[];
  readonly called: Called;
}

const wordsOf = (list: VocabularyList, over: Over): readonly WordProposed[] => {
  const { packs, files, atlas, used, own, wouldBe } = over;
  const theirs = (atlas[list] ?? []) as readonly unknown[] as readonly Entry[];
  const here = new Map(theirs.map((entry) => [entry.id, entry]));
  const [ids, idsIf] = [own, wouldBe].map((words) => new MappedIds(files, { own: words, leaned: [] })) as [MappedIds, MappedIds];
  const calledThere = callerOf(list, files, over);
  const calledHere = callerOf(list, atlas as unknown as Entries, over);
  const called = new Map(theirs.map((entry) => [entry.id, calledHere(entry)]));
  const mine = (files[list] as readonly unknown[] as readonly Entry[]).flatMap((entry): readonly Mine[] => {
    const pack = packs.find((one) => (one.files[list] as readonly Named[]).some(({ id }) => id === entry.id)) as Coming;
    const mapped = mappedEntry(list, entry, ids);
    const ifMapped = mappedEntry(list, entry, idsIf);
    const isOf = (word: MappedWord): boolean => word.list === list && word.id === entry.id;
    const now = pack.now.find(isOf);
    const kept = now ?? pack.kept.find(isOf) ?? null;
    const same = here.get(entry.id);
    if (kept === null && same !== undefined && sameValue(same, mapped)) return [];
    return [
      {
        entry,
        mapped,
        pack,
        kept,
        now: now !== undefined,
        can: theirs.filter((other) => unlikeIn(list, ifMapped, other).length === 0),
        called: calledThere(entry),
      },
    ];
  });
  const pairs = pairsAmong(list, mine, called);
  return mine.flatMap((one): readonly WordProposed[] => {
    const { entry, mapped, pack, kept, now, can } = one;
    const clashes = here.has(entry.id);
    const stands = !clashes && ((pack.held?.[list] ?? []) as readonly Named[]).some(({ id }) => id === entry.id);
    const gone = kept?.to !== undefined && !here.has(kept.to) ? kept.to : null;
    const pair = pairs.get(entry.id);
    const chosen = kept?.to !== undefined && gone === null ? here.get(kept.to) : kept !== null && gone === null ? undefined : pair?.sure;
    const likely = [...(pair?.like ?? []).map(({ other, why }) => ({ ...namedAs(other), why })), ...byLikeness(one, called)].filter(
      ({ id }, at, all) => all.findIndex((each) => each.id === id) === at,
    );
    const options = chosen === undefined ? null : optionsOf(entry, chosen, kept);
    const none = chosen === undefined ? [] : usedWithout(options, used.get(entry.id));
    const doubts = chosen === undefined ? [] : [...doubtsOf(list, mapped, chosen), ...none];
    const warnings = gone === null ? doubts : [`It was mapped onto “${gone}”, which the atlas no longer has.`];
    const is = kept !== null && gone === null;
    const fits = chosen !== undefined && unlikeIn(list, mapped, chosen).length === 0;
    const sure = chosen !== undefined && (is || (!stands && fits && doubts.length === 0));
    if (chosen === undefined && likely.length === 0 && !clashes && !is && gone === null) return [];
    const word: WordProposed = {
      list,
      ...namedAs(entry),
      pack: pack.id,
      to: sure ? (chosen?.id ?? null) : null,
      as: is ? (kept.as ?? null) : null,
      options: sure ? options : null,
      why: is ? (now ? null : 'It was mapped so before.') : (pair?.why ?? null),
      said: is ? (now ? 'now' : 'kept') : stands ? 'own' : 'new',
      warnings,
      otherwise: chosen === undefined ? [] : otherwiseIn(list, mapped, chosen),
      likely: (chosen === undefined
        ? likely
        : [{ ...namedAs(chosen), why: pair?.why ?? '' }, ...likely.filter(({ id }) => id !== chosen.id)]
      ).slice(0, mostLikely),
      can: can.map((other) => ({ ...namedAs(other), ...optionsNamed(other) })),
      clashes,
    };
    return can.length === 0 && likely.length === 0 && !clashes && !is && gone === null ? [] : [word];
  });
};

interface Pair {
  readonly sure: Entry | undefined;
  readonly why: string | null;
  readonly like: readonly { readonly other: Entry; readonly why: string }[];
}

/** Which of ours is which of theirs: from the surest way on, each that has one alone on it, which has it alone. */
const pairsAmong = (list: VocabularyList, mine: readonly Mine[], called: ReadonlyMap<string, Called>): ReadonlyMap<string, Pair> => {
  const pairs = new Map<string, Pair>();
  const taken = new Set<string>();
  const rounds: readonly ((one: Mine, other: Entry) => string | null)[] = [
    (one, other) =>
      one.entry.id === other.id && ways.some((way) => sharedOn(way, one.called, called.get(other.id) as Called) !== null)
        ? 'It has the same id and is called the same.'
        : null,
    ...ways.map((way) => (one: Mine, other: Entry) => {
      const shared = sharedOn(way, one.called, called.get(other.id) as Called);
      return shared === null ? null : sayWay[way](shared);
    }),
    (one, other) => (one.mapped.says !== undefined && one.mapped.says === other.says ? `Both say the ${one.mapped.says}.` : null),
    (one, other) => structure[list]?.(one.mapped, other) ?? null,
  ];
  for (const round of rounds) {
    const met = new Map<string, { readonly other: Entry; readonly why: string }[]>();
    const by = new Map<string, number>();
    for (const one of mine) {
      if (pairs.has(one.entry.id)) continue;
      const found = one.can.flatMap((other) => {
        const why = taken.has(other.id) ? null : round(one, other);
        return why === null ? [] : [{ other, why }];
      });
      if (found.length > 0) met.set(one.entry.id, found);
      for (const { other } of found) by.set(other.id, (by.get(other.id) ?? 0) + 1);
    }
    for (const [id, found] of met) {
      const [first] = found;
      if (first === undefined) continue;
      const alone = found.length === 1 && by.get(first.other.id) === 1;
      pairs.set(id, alone ? { sure: first.other, why: first.why, like: [] } : { sure: undefined, why: null, like: found });
      if (alone) taken.add(first.other.id);
    }
  }
  return pairs;
};

const sayWay = {
  name: (shared: string) => `Both are called “${shared}”.`,
  words: (shared: string) => `“${shared}” is a word for both.`,
  bare: (shared: string) => `Both are called by the same words: ${shared.replaceAll(' ', ', ')}.`,
};

/** What tells two apart that are called by nothing, or otherwise. */
const structure: { readonly [L in VocabularyList]?: (mine: Entry, theirs: Entry) => string | null } = {
  joints: () => 'Both join the same two faces.',
  warmth: () => 'Both say how warm the same joint runs.',
  drawings: () => 'Both are the same drawing of the same slot.',
};

/** What may be meant, where nothing surer is known: by a form of the same word of the trade, or most of the words. */
const byLikeness = (
  { can, called: mine, entry }: Mine,
  called: ReadonlyMap<string, Called>,
): readonly (LikelyWord & { readonly why: string })[] =>
  can
    .map((other) => {
      const theirs = called.get(other.id) as Called;
      const trade = sharedOn('trade', mine, theirs);
      if (other.id === entry.id) return { other, like: 2, why: 'It has the same id.' };
      if (trade !== null) return { other, like: 1, why: `Both are forms of “${trade}”.` };
      return { other, like: likeness(mine, theirs), why: weakly };
    })
    .filter(({ like }) => like >= leastLike)
    .sort((a, b) => b.like - a.like)
    .slice(0, mostLikely)
    .map(({ other, why }) => ({ ...namedAs(other), why }));

/** What an entry of a list is called within what it is a part of. */
const callerOf = (list: VocabularyList, files: Entries, { trade }: Over): ((entry: Entry) => Called) => {
  const slots = new Map(
    (files.slots as readonly unknown[] as readonly Entry[]).map((slot) => [
      slot.id,
      [slot.name, ...((slot.alsoCalled ?? []) as readonly unknown[])].map((text) => fold(String(text))),
    ]),
  );
  return (entry) => calledOf(entry, list !== 'slots' && typeof entry.slot === 'string' ? (slots.get(entry.slot) ?? []) : [], trade);
};

const optionsOf = (entry: Entry, chosen: Entry, kept: MappedWord | null): WordProposed['options'] => {
  const [mine, theirs] = [entry, chosen].map(({ options }) => (options ?? []) as readonly Entry[]) as [readonly Entry[], readonly Entry[]];
  if (mine.length === 0) return null;
  const alike = optionsAlike(mine, theirs);
  const has = new Set(theirs.map(({ id }) => id));
  return mine.map((option) => {
    const before =
      kept === null
        ? undefined
        : kept.options !== undefined && Object.hasOwn(kept.options, option.id)
          ? kept.options[option.id]
          : option.id;
    const to = before === undefined || (before !== null && !has.has(before)) ? (alike.get(option.id) ?? null) : before;
    return { ...namedAs(option), to };
  });
};

const usedWithout = (options: WordProposed['options'], used: ReadonlyMap<string, number> | undefined): readonly string[] => {
  const none = (options ?? []).filter(({ id, to }) => to === null && used?.has(id));
  if (none.length === 0) return [];
  const many = none.reduce((sum, { id }) => sum + (used?.get(id) ?? 0), 0);
  return [
    `Parts of the pack have ${listed(none.map(({ name }) => `“${name}”`))} (${many === 1 ? '1 part' : `${many} parts`}), which there is no option for here.`,
  ];
};

/** How many parts have which option of a choice. */
const usedOptions = (packs: readonly Coming[]): ReadonlyMap<string, ReadonlyMap<string, number>> => {
  const used = new Map<string, Map<string, number>>();
  for (const { facts } of packs.flatMap(({ parts }) => parts))
    for (const [feature, fact] of Object.entries(facts)) {
      if (fact.kind !== 'choice') continue;
      const of = used.get(feature) ?? new Map<string, number>();
      used.set(feature, of);
      for (const option of fact.anyOf) of.set(option, (of.get(option) ?? 0) + 1);
    }
  return used;
};

const namedAs = (entry: Entry): LikelyWord => ({ id: entry.id, name: String(entry.name ?? entry.title ?? entry.drawing ?? entry.id) });

const optionsNamed = ({ options }: Entry): { readonly options?: readonly LikelyWord[] } =>
  options === undefined ? {} : { options: (options as readonly Entry[]).map(namedAs) };

const onceEach = (entries: readonly Named[]): readonly Named[] => [...new Map(entries.map((entry) => [entry.id, entry])).values()];
