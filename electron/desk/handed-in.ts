import { readSheetTable, readSheetText } from '../../db/index.ts';
import { type CompiledAtlas, type ListingsItem, slipOf } from '../../reasoner/index.ts';
import { knownIn } from './kept-atlas.ts';

/** A file somebody handed in; null for bytes that are no UTF-8. */
export interface HandedIn {
  readonly name: string;
  readonly text: string | null;
}

/** What the files hold, sheet by sheet; a file or a unit that cannot be read is an item too, with all its faults. */
export const itemsIn = (atlas: CompiledAtlas, files: readonly HandedIn[]): ListingsItem[] => files.flatMap((file) => itemsOf(atlas, file));

const itemsOf = (atlas: CompiledAtlas, { name, text }: HandedIn): ListingsItem[] => {
  if (text === null) return [{ source: name, faults: [`${name}: found bytes that are not UTF-8, expected text in UTF-8.`] }];
  if (/\.csv$/i.test(name)) {
    const units = readSheetTable(text, name, { ...atlas.data, slipOf });
    if (units.length === 0) return [{ source: name, faults: [`${name}: found a header and no rows, expected at least one unit.`] }];
    return units.map((unit) => ({
      source: unit.source,
      ...(unit.ok ? { sheet: unit.sheet } : { faults: unit.faults.map(({ sentence }) => sentence) }),
    }));
  }
  const read = readSheetText(text, name, knownIn(atlas));
  if (read.ok) return [{ source: name, sheet: read.value }];
  return [{ source: name, faults: (read.trouble.all ?? [read.trouble]).map(({ sentence }) => sentence) }];
};
