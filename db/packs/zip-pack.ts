import { strToU8, type Zippable, zipSync } from 'fflate';
import { signatureFile } from '../signing/signature.ts';
import { canonicalText } from './canonical.ts';
import { dataPackageFile, dataPackageText } from './data-package.ts';
import type { Held } from './held.ts';
import { isSignatureOf } from './signed.ts';

/** A ZIP's times have no zone and begin here; that of the writing would make the same pack other bytes. */
const noTime = new Date(1980, 0, 1);

/** A pack as one file. */
export interface PackZip {
  readonly name: string;
  readonly bytes: Buffer;
}

/**
 * The canonical files of a pack in one ZIP, with its signature where that holds of them and what describes its tables to other programs, in a folder of its id: unpacked beside other packs it is found by what leans
 * on it.
 */
export const zipOfPack = ({ pack, signature }: Pick<Held, 'pack' | 'signature'>): PackZip => {
  const { id, edition } = pack.head;
  const texts = canonicalText(pack);
  const signed = signature !== null && isSignatureOf(signature, pack.head, texts) ? [[signatureFile, signature] as const] : [];
  const files: Zippable = {};
  const described = [dataPackageFile, dataPackageText(pack, texts)] as const;
  for (const [path, text] of [...texts, described, ...signed]) files[`${id}/${path}`] = [strToU8(text), { level: 6 }];
  const zip = zipSync(files, { mtime: noTime });
  return { name: `${id}-${edition}.zip`, bytes: Buffer.from(zip.buffer, zip.byteOffset, zip.length) };
};
