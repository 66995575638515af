import { everyList } from '../atlas/lists.ts';
import { csvColumns, fileOf } from '../atlas/pack.ts';
import { signatureFile } from '../signing/signature.ts';
import { dataPackageFile } from './data-package.ts';

const atTop: ReadonlySet<string> = new Set([
  'pack.json',
  signatureFile,
  dataPackageFile,
  ...everyList.map(({ name }) => fileOf(name)),
  ...Object.keys(csvColumns),
]);

/** Whether a pack's folder has a file of this path, counted from its own folder. */
export const isPackFile = (path: string): boolean => atTop.has(path) || /^sheets\/[^/]+\.json$/.test(path);

/**
 * Which folder among files that were brought is the pack: the one `pack.json` stands in, as its path with a stroke at the end, empty for the top. A folder or ZIP may hold
 * one pack at its top or anywhere below; where there are several, it is not for this to choose.
 */
export const packIn = (paths: readonly string[]): { readonly root: string } | { readonly found: readonly string[] } => {
  const roots = paths.filter((path) => /(^|\/)pack\.json$/.test(path)).map((path) => path.slice(0, -'pack.json'.length));
  const [root] = roots;
  return root !== undefined && roots.length === 1 ? { root } : { found: roots.sort() };
};
