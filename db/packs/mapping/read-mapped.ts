import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Pack, PackHead } from '../../atlas/pack.ts';
import type { Asked } from '../../read/asked.ts';
import { signatureFile } from '../../signing/signature.ts';
import type { Outcome } from '../../trouble.ts';
import { isPackFile } from '../brought.ts';
import { canonicalText } from '../canonical.ts';
import { dataPackageFile } from '../data-package.ts';
import { type Inspected, inspectPack, type ReadOptions } from '../read.ts';
import { isSignatureOf, notCoveredIn } from '../signed.ts';
import { asMapped } from './mapping-of.ts';

/** `inspectPack` under a mapping: the pack as it would be held. @param standing the packs that will stand beside it */
export const inspectMapped = async (folder: string, options: ReadOptions, standing: readonly Pack[]): Promise<Outcome<Inspected>> => {
  const read = await inspectPack(folder, options);
  if (!read.ok) return read;
  return { ok: true, value: { ...read.value, pack: asMapped(read.value.pack, read.value.mapped, standing) } };
};

/**
 * The canonical text of a pack as it was brought, which is what is signed; where it can no longer be read so, for want of the words it leans on as those were brought, its files as
 * they stand.
 */
export const textsAsBrought = async (
  folder: string,
  head: PackHead,
  options: Asked & Pick<ReadOptions, 'beside'>,
): Promise<ReadonlyMap<string, string>> => {
  const standing = new Map<string, string>();
  for (const path of await notCoveredIn(folder, standing))
    if (isPackFile(path) && path !== dataPackageFile) standing.set(path, (await readFile(join(folder, path))).toString('utf8'));
  const signature = await readFile(join(folder, signatureFile), 'utf8').catch(() => null);
  if (signature === null || isSignatureOf(signature, head, standing)) return standing;
  const { beside: _beside, ...alone } = options;
  for (const each of [options, alone]) {
    const read = await inspectPack(folder, each);
    if (read.ok) return canonicalText(read.value.pack);
  }
  return standing;
};
