import path from 'node:path';
import {
  allSaid,
  headIn,
  type LoadedWith,
  type Outcome,
  type PackFinding,
  type Store,
  type Trouble,
  type WordDispute,
} from '../../db/index.ts';
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
      const signers = await store.packs.list();
      if (!signers.ok) return signers;
      const more = new Map(signers.value.map((one) => [one.id, one]));
      return well<PacksHeld>({
        held: held.value.map((one) => {
          const { signer = null, mapped = [], signedAsBrought = false } = more.get(one.id) ?? {};
          return { ...one, signer, mapped: mapped.length, signedAsBrought };
        }),
        shipped: others.map(({ folder: _folder, ...head }) => head),
      });
    },
    'packs.putIn': async ({ id }) => {
      const found = (await shippedIn(shipped)).find((one) => one.id === id);
      if (found === undefined) return refusal('not-found', id, `No pack “${id}” comes with the program.`);
      return loadedFrom(found.folder, await store.packs.load(found.folder, { shipped }));
    },
    'packs.takeOut': ({ id, madeAgainst }) => store.packs.remove(id, madeAgainst),
    'packs.handIn': ({ token, path: name, data: part }) => come.add(token, name, Buffer.from(part, 'base64')),
    'packs.look': async ({ token, signerIsFine, words: said }) => {
      const brought = await come.pack(token);
      if (!brought.ok) return brought;
      const { folder, leftAlone } = brought.value;
      // Where that cannot be told, the check says why.
      const proposed = await store.packs.words(folder, { shipped, ...(said === undefined ? {} : { words: said }) });
      const shown = proposed.ok ? proposed.value : [];
      const words = allSaid(shown);
      const checked = await store.packs.check(folder, { shipped, words });
      if (!checked.ok) return { ok: false, trouble: inIt(checked.trouble, folder) };
      const { warnings } = checked.value;
      // Who signed it, and whose word holds, are decided by somebody and nothing to mend in its files.
      const decided = (code: string): boolean => code === 'pack-disputed' || code === 'pack-signer';
      const faults = checked.value.faults.filter(({ code }) => !decided(code));
      const remarks = (all: readonly (PackFinding & { readonly said: string })[]) =>
        all.slice(0, mostRemarks).map((one) => remarkOf(one, folder));
      // One that is so in many places names them itself.
      const means = warnings.map((one) => ({ ...one, many: 1, said: [one.means, one.likely].filter((text) => text !== null).join(' ') }));
      if (faults.length > 0)
        return well<PackLooked>({
          sound: false,
          faults: remarks(faults.map((one) => ({ ...one, said: one.expected }))),
          count: faults.length,
          undecided: remarks(
            checked.value.faults
              .filter(({ code }) => (code === 'pack-signer' && !signerIsFine) || code === 'pack-disputed')
              .map((one) => ({ ...one, said: one.expected })),
          ),
          remarks: remarks(means),
          leftAlone,
          words: shown,
        });
      const looked = await loadedFrom(folder, await store.packs.preview(folder, { shipped, words, ...letPass(signerIsFine) }));
      if (!looked.ok) return looked;
      return well<PackLooked>({ sound: true, pack: looked.value, remarks: remarks(means), leftAlone, words: shown });
    },
    'packs.bring': async ({ token, signerIsFine, holds, words = [] }) => {
      const brought = await come.pack(token);
      if (!brought.ok) return brought;
      const { folder } = brought.value;
      const decided = { holds: ({ cell }: WordDispute) => holds[cell] ?? null };
      const loaded = await loadedFrom(folder, await store.packs.load(folder, { shipped, words, ...letPass(signerIsFine), ...decided }));
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
  const { pack: id, edition, changed, replaced, counts, change, signer, mapped, disputes, with: leaned } = outcome.value;
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
    signer,
    mapped: mapped.length,
    disputes,
    with: leaned.map((one) => ({ id: one.pack, edition: one.edition })),
  });
};

/** More findings than these nobody reads in a window. */
const mostRemarks = 500;

const remarkOf = ({ file, row, column, found, said, many }: PackFinding & { readonly said: string }, folder: string): PackRemark => ({
  ...{ file, row, column, many },
  found: plainly(found, folder),
  said: plainly(said, folder),
});

/** Somebody has asked about the signer. */
export const letPass = (signerIsFine: boolean) => ({ strangerIsFine: signerIsFine, otherSignerIsFine: signerIsFine });

/** A trouble with a brought pack, without where that stands for the moment. */
export const inIt = (trouble: Trouble, folder: string): Trouble => ({
  code: trouble.code,
  place: trouble.place === null ? null : plainly(trouble.place, folder),
  sentence: plainly(trouble.sentence, folder),
});

/** Without where the pack stands for the moment. */
const plainly = (text: string, folder: string): string =>
  text.replaceAll(`${folder}${path.sep}`, '').replaceAll(`${folder}/`, '').replaceAll(folder, 'the pack');
