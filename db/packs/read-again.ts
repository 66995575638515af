import { emptyAtlas, type Pack } from '../atlas/pack.ts';
import type { Asked } from '../read/asked.ts';
import type { Outcome } from '../trouble.ts';
import { atlasOfPacks } from './atlas-of-packs.ts';
import { canonicalText } from './canonical.ts';
import { type FilesRead, type Inspected, inspected, readFiles } from './read.ts';
import { filesOf } from './read-files.ts';
import { type ShapeFault, shapeFaults } from './shape-faults.ts';

/** A pack that was put together in memory, read as any other. */
export type ReadAgain =
  /** It has entries no list can hold, and so no text. */
  | { readonly shapes: readonly [ShapeFault, ...ShapeFault[]] }
  | { readonly texts: ReadonlyMap<string, string>; readonly read: FilesRead; readonly sound: Outcome<Inspected> };

/** @param others the packs that will stand beside it */
export const readAgain = async (pack: Pack, others: readonly Pack[], asked: Asked): Promise<ReadAgain> => {
  const [first, ...rest] = shapeFaults(pack);
  if (first !== undefined) return { shapes: [first, ...rest] };
  const texts = canonicalText(pack);
  const name = `pack ${pack.head.id}`;
  const beside = {
    beside: async () => atlasOfPacks(others),
    allowedBeside: async () => others.flatMap(({ allowed }) => allowed),
    namedByOthers: true,
  };
  const read = await readFiles(filesOf(name, texts), { ...asked, ...beside }, async () => emptyAtlas);
  return { texts, read, sound: inspected(read, name) };
};
