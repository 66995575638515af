import path from 'node:path';
import { headIn, type LoadedWith, type Outcome, type PackFault, type PackWarning, type Store, type Trouble } from '../../db/index.ts';
import type { Calls } from '../bridge/desk.ts';
import type { PackLoaded, PackLooked, PackRemark, PacksHeld } from '../bridge/pack-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { BroughtPacks } from './brought-packs.ts';
import { HeldFiles } from './held-files.ts';
import { beginAtlas, shippedIn } from './shipped-packs.ts';

/**
 * The packs the atlas is made of, and those on their way in and out.
 * @param shipped the folder of the packs that come with the program
 * @param data the data folder
 */
export const packCalls = (store: Store, shipped: string, data: string): Calls<'packs'> => {
  const [out, come] = [new HeldFiles(), new BroughtPacks(data)];
  return {
    'packs.begin': ({ with: beginning }) => beginAtlas(store, shipped, beginning),
    'packs.held': async () => {
      const held = await store.packs.held();
      if (!held.ok) return held;
      const ids = new Set(held.value.map(({ id }) => id));
      const others = (await shippedIn(shipped)).filter(({ id }) => !ids.has(id));
      return well<PacksHeld>({ held: held.value, shipped: others.map(({ folder: _folder, ...head }) => head) });
    },
    'packs.putIn': async ({ id }) => {
      const found = (await shippedIn(shipped)).find((one) => one.id === id);
      if (found === undefined) return refusal('not-found', id, `No pack “${id}” comes with the program.`);
      return loadedFrom(found.folder, await store.packs.load(found.folder, { shipped }));
    },
    'packs.takeOut': ({ id, madeAgainst }) => store.packs.remove(id, madeAgainst),
    'packs.handIn': ({ token, path: name, data: part }) => come.add(token, name, Buffer.from(part, 'base64')),
    'packs.look': async ({ token }) => {
      const brought = await come.pack(token);
      if (!brought.ok) return brought;
      const { folder, leftAlone } = brought.value;
      const looked = await loadedFrom(folder, await store.packs.preview(folder, { shipped }));
      if (!looked.ok && looked.trouble.code !== 'pack-invalid') return looked;
      const checked = await store.packs.check(folder, { shipped });
      if (!checked.ok) return { ok: false, trouble: inIt(checked.trouble, folder) };
      const { faults, warnings } = checked.value;
      if (looked.ok) return well<PackLooked>({ sound: true, pack: { ...looked.value, warnings: warnings.map(remarkOf) }, leftAlone });
      return well<PackLooked>({
        sound: false,
        faults: faults.map((fault) => inPack(remarkOf(fault), folder)),
        count: faults.length,
        leftAlone,
      });
    },
    'packs.bring': async ({ token }) => {
      const brought = await come.pack(token);
      if (!brought.ok) return brought;
      const { folder } = brought.value;
      const loaded = await loadedFrom(folder, await store.packs.load(folder, { shipped }));
      if (loaded.ok) await come.drop(token);
      return loaded;
    },
    'packs.leave': async ({ token }) => {
      await come.drop(token);
      return well(null);
    },
    'packs.write': async ({ id }) => {
      const zip = await store.packs.zip(id);
      if (!zip.ok) return zip;
      const { name, bytes } = zip.value;
      const token = out.begin(name, bytes);
      return well({ token, name, parts: out.partsOf(token) });
    },
    'packs.part': async ({ token, part }) => out.part(token, part),
  };
};

/** What came of loading a folder, or would come, as the window tells it. A trouble names the files of the pack and not where they stand for the moment. */
const loadedFrom = async (folder: string, outcome: Outcome<LoadedWith>): Promise<Outcome<PackLoaded>> => {
  if (!outcome.ok) return { ok: false, trouble: inIt(outcome.trouble, folder) };
  const { pack: id, edition, changed, replaced, counts, change, warnings, with: leaned } = outcome.value;
  const head = await headIn(folder);
  return well({
    id,
    title: head?.title ?? id,
    edition,
    invented: head?.invented ?? false,
    changed,
    replaced,
    counts,
    change,
    warnings: warnings.map(({ file, row, column, found, means }) => ({ file, row, column, found, said: means })),
    with: leaned.map((one) => ({ id: one.pack, edition: one.edition })),
  });
};

/** A finding of the check, each of one cause once. */
const remarkOf = (finding: PackFault | PackWarning): PackRemark => {
  const { file, row, column, found, many } = finding;
  const said = 'expected' in finding ? finding.expected : [finding.means, finding.likely].filter((each) => each !== null).join(' ');
  // A warning names the others itself.
  const more = 'expected' in finding && many > 1 ? `; the same in ${many - 1} more ${many === 2 ? 'place' : 'places'}` : '';
  return { file, row, column, found, said: `${said}${more}` };
};

const inIt = <T extends Trouble>(trouble: T, folder: string): T => {
  const { place, sentence } = trouble;
  return { ...trouble, place: place === null ? null : withoutFolder(place, folder), sentence: withoutFolder(sentence, folder) };
};

const inPack = ({ found, said, ...place }: PackRemark, folder: string): PackRemark => ({
  ...place,
  found: withoutFolder(found, folder),
  said: withoutFolder(said, folder),
});

const withoutFolder = (text: string, folder: string): string =>
  text.replaceAll(`${folder}${path.sep}`, '').replaceAll(`${folder}/`, '').replaceAll(folder, 'the pack');
