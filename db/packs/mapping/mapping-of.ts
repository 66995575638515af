import type { Atlas } from '../../../reasoner/index.ts';
import { sameValue } from '../../../reasoner/plain/same-value.ts';
import type { Named } from '../../atlas/list.ts';
import { everyList } from '../../atlas/lists.ts';
import type { Pack } from '../../atlas/pack.ts';
import { atlasOfPacks } from '../atlas-of-packs.ts';
import { canonicalText, hashOfPack } from '../canonical.ts';
import type { HeadRead } from '../leaning.ts';
import { leaningOf } from '../leaning-of.ts';
import { type MappedWord, vocabularyLists } from '../mapped-word.ts';
import type { Mapping } from './mapped-ids.ts';

/**
 * What the words of a pack on its way in are read by (P16): what is said of them now, what was kept of the edition that is held, and what is kept of the packs it leans on. Of a pack
 * that says itself that it was mapped no id the atlas has is read as another: it speaks the words of the atlas already. Null where nothing is said.
 * @param kept of the edition that is held
 * @param standing the packs that will stand beside it
 */
export const mappingOf = (
  head: HeadRead | null,
  given: readonly MappedWord[],
  kept: readonly MappedWord[],
  standing: readonly Pack[],
): Mapping | null => {
  const leaned = leanedWords(head?.leansOn ?? [], standing);
  if (head?.mapped === true) {
    const here = new Set(standing.flatMap((pack) => vocabularyLists.flatMap((list) => pack[list].map(({ id }) => `${list} ${id}`))));
    const all = [...given, ...leaned.filter(({ list, id }) => !here.has(`${list} ${id}`))];
    return all.length === 0 ? null : { own: all, leaned: all };
  }
  const all = { own: [...given, ...kept, ...leaned], leaned: [...given, ...leaned, ...kept] };
  return all.own.length === 0 ? null : all;
};

/** What was said of the words of packs that are leaned on, and of those they lean on. */
const leanedWords = (leansOn: readonly string[], standing: readonly Pack[]): readonly MappedWord[] => {
  const byId = new Map(standing.map((pack) => [pack.head.id, pack]));
  const met = new Set<string>(leansOn);
  for (const id of met) for (const below of byId.get(id)?.head.leansOn ?? []) met.add(below);
  return [...met].flatMap((id) => byId.get(id)?.head.mapped ?? []);
};

/** A pack that was read by a mapping, as it is held: it says what of its words is mapped, and leans on the packs whose words it says now. */
export const asMapped = (pack: Pack, mapped: readonly MappedWord[], standing: readonly Pack[]): Pack => {
  if (mapped.length === 0) return pack;
  const { leansOn: before = [], mapped: was = [], ...head } = pack.head;
  const above = leaningOnto(pack.head.id, standing);
  const leaning = leaningOf(
    pack,
    standing.filter(({ head: other }) => !above.has(other.id)),
  );
  const leansOn = [...new Set([...before, ...leaning])];
  const said = new Set(mapped.map(({ list, id }) => `${list} ${id}`));
  return {
    ...pack,
    head: {
      ...head,
      ...(leansOn.length === 0 ? {} : { leansOn }),
      mapped: [...was.filter(({ list, id }) => !said.has(`${list} ${id}`)), ...mapped],
    },
  };
};

/** The packs that cannot be without this one, so that it does not come to lean on what leans on it. */
const leaningOnto = (id: string, packs: readonly Pack[]): ReadonlySet<string> => {
  const above = new Set([id]);
  for (const of of above) for (const { head } of packs) if (head.leansOn?.includes(of)) above.add(head.id);
  return above;
};

/** What stands beside a pack as it was brought: the words of packs that come with it before those that are held under the same ids. */
export const besideAsBrought = (coming: readonly Pack[], standing: readonly Pack[]): Atlas => {
  const [first, held] = [atlasOfPacks(coming), atlasOfPacks(standing)];
  const lists = everyList.map(({ name }) => {
    const entries = (first[name] ?? []) as readonly Named[];
    const brought = new Set(entries.map(({ id }) => id));
    return [name, [...entries, ...((held[name] ?? []) as readonly Named[]).filter(({ id }) => !brought.has(id))]] as const;
  });
  return { ...atlasOfPacks([...standing, ...coming]), ...Object.fromEntries(lists) };
};

/**
 * Whether it is the edition that is held, as that was brought, with something else said of its words.
 * @param asBefore the same by what is kept; null where it can no longer be read so
 */
export const isMappedAnew = async (
  { head }: Pack,
  before: { readonly edition: string; readonly hash: string; readonly mapped: readonly MappedWord[] | null },
  asBefore: () => Promise<Pack | null>,
): Promise<boolean> => {
  if (head.edition !== before.edition || sameValue(head.mapped ?? [], before.mapped ?? [])) return false;
  const again = await asBefore();
  return again !== null && hashOfPack(canonicalText(again)) === before.hash;
};
