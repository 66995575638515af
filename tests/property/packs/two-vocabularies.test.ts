import { readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, expect, test } from 'vitest';
import type { MappedWord, Store } from '../../../db/index.ts';
import { vocabularyLists } from '../../../db/packs/mapped-word.ts';
import { saidOf } from '../../../db/packs/mapping/propose.ts';
import { Dice } from '../../oracle/dice.ts';
import { demoPack, expandCode, freshFolder, freshStore, valueIn, vocabularyPack } from '../../unit/db/kit.ts';
import { type OtherIds, writeInOtherWords } from '../../unit/db/other-words.ts';

const entriesOf = (list: string) =>
  JSON.parse(readFileSync(join(vocabularyPack, `${list}.json`), 'utf8')) as readonly {
    readonly id: string;
    readonly options?: readonly { readonly id: string }[];
  }[];

/** Every id of the vocabulary and every option called otherwise, no two alike; some by the id that another feature has here. */
const otherIds = (dice: Dice): OtherIds => {
  const ids = new Map<string, string>();
  const lists = vocabularyLists.map((list) => entriesOf(list));
  const options = lists.flat().flatMap((entry) => (entry.options ?? []).map(({ id }) => id));
  // Figures in a table are no ids.
  const all = new Set([...lists.flat().map(({ id }) => id), ...options].filter((id) => !/^[\d.]+$/.test(id)));
  for (const id of all) ids.set(id, `w${ids.size}-${dice.whole(100, 999)}`);
  const turned = entriesOf('features')
    .map(({ id }) => id)
    .filter(() => dice.often(30));
  for (const [at, id] of turned.entries()) ids.set(id, turned[(at + 1) % turned.length] as string);
  return ids;
};

/** What is held of the demo pack and all that is reasoned over, once it was loaded as it is. */
let plain: { readonly atlas: unknown; readonly content: string };

const contentOf = async (store: Store): Promise<typeof plain> => {
  const { edition: _edition, ...atlas } = await store.atlas.read();
  const folder = join(freshFolder(), 'out');
  valueIn(await store.packs.export('saltmarsh-demo', folder));
  const files = readdirSync(folder, { recursive: true, encoding: 'utf8' }).filter(
    (file) => /\.(json|csv)$/.test(file) && !/^(data)?pack/.test(file),
  );
  return {
    atlas,
    content: files
      .sort()
      .map((file) => `${file}\n${readFileSync(join(folder, file), 'utf8')}`)
      .join('\n'),
  };
};

beforeAll(async () => {
  const store = await freshStore({ expandCode });
  valueIn(await store.packs.load(demoPack));
  plain = await contentOf(store);
});

test('[P16] a world and its vocabulary in which every id is another, mapped as is proposed and corrected, gives the very atlas they give as they are', async () => {
  const dice = new Dice(1);
  const ids = otherIds(dice);
  const parent = freshFolder();
  writeInOtherWords(vocabularyPack, join(parent, 'words'), ids, { id: 'other-words', title: 'Other words' });
  writeInOtherWords(demoPack, join(parent, 'world'), ids, { leansOn: ['other-words'] });
  // Some are called so that nobody could know them.
  const file = join(parent, 'words', 'features.json');
  const strange = (JSON.parse(readFileSync(file, 'utf8')) as { id: string; name: string; alsoCalled?: string[] }[]).map((feature) => {
    if (!dice.often(8)) return feature;
    const { alsoCalled: _alsoCalled, ...rest } = feature;
    return { ...rest, name: `zzq ${feature.id}` };
  });
  writeFileSync(file, JSON.stringify(strange));

  const store = await freshStore({ expandCode });
  valueIn(await store.packs.load(vocabularyPack));
  const proposed = new Map(valueIn(await store.packs.words(join(parent, 'world'))).map((word) => [`${word.list} ${word.id}`, word]));
  const words = vocabularyLists.flatMap((list) =>
    entriesOf(list).map((entry): MappedWord => {
      const options = (entry.options ?? []).flatMap(({ id }) => (ids.has(id) ? [[ids.get(id) as string, id] as const] : []));
      return {
        list,
        id: ids.get(entry.id) as string,
        to: entry.id,
        ...(options.length === 0 ? {} : { options: Object.fromEntries(options) }),
      };
    }),
  );
  const said = new Map(saidOf([...proposed.values()]).map((word) => [`${word.list} ${word.id}`, word]));
  // Nothing is proposed that is not so, options and all, and what must be said by hand is what was made strange.
  for (const word of words) expect([undefined, JSON.stringify(word)]).toContain(textOf(said.get(`${word.list} ${word.id}`)));
  const strangers = strange.filter(({ name }) => name.startsWith('zzq')).map(({ id }) => id);
  expect(strangers.length).toBeGreaterThan(5);
  expect(words.filter(({ list, id }) => !said.has(`${list} ${id}`)).map(({ id }) => id)).toEqual(strangers);

  const loaded = valueIn(await store.packs.load(join(parent, 'world'), { words }));
  expect(loaded).toMatchObject({ changed: true, with: [{ pack: 'other-words', changed: true }] });
  const mapped = await contentOf(store);
  expect(mapped.content).toBe(plain.content);
  expect(mapped.atlas).toEqual(plain.atlas);
  // The same again, with nothing said, is read by what was kept.
  expect(valueIn(await store.packs.load(join(parent, 'world')))).toMatchObject({ changed: false });
});

const textOf = (word: MappedWord | undefined): string | undefined => (word === undefined ? undefined : JSON.stringify(word));
