import { eq } from 'drizzle-orm';
import { counted } from '../../reasoner/plain/text.ts';
import type { CellKey } from '../atlas/cell.ts';
import { packOf } from '../changes/cells-of.ts';
import { readCell } from '../changes/word-rows.ts';
import type { Reader } from '../driver/driver.ts';
import { build, statementOf } from '../driver/statements.ts';
import type { Plan } from '../driver/write-planned.ts';
import * as t from '../schema.ts';
import type { Ground } from './ground.ts';
import { checkNext, type Planned, type Setting } from './plan.ts';

/** A row of the shop's words, as it is kept. */
export interface KeptWord {
  readonly pack: string;
  readonly cell: string;
  readonly own: string | null;
}

/** The pack of the shop's own entries is marked as that. */
export const planOwn = async (reader: Reader, own: string | null): Promise<Plan<null>> => {
  const rows = await reader.orm.select({ id: t.packs.id, own: t.packs.own }).from(t.packs);
  const there = own !== null && rows.some((row) => row.id === own && !row.own);
  return {
    batch: there ? { statements: [statementOf(build.update(t.packs).set({ own: true }).where(eq(t.packs.id, own)))] } : null,
    value: null,
  };
};

/** The shop's words over a pack that was loaded anew; or a sentence, where they cannot be. */
export const planWords = async (ground: Ground, pack: string, words: readonly KeptWord[], setting: Setting): Promise<Planned | string> => {
  if (!ground.held.has(pack))
    return `The atlas does not hold the pack “${pack}”, so what the shop says of it was left out (${counted(words.length, 'word')}).`;
  const cells = new Map(ground.cellsOf(pack));
  for (const { cell, own } of words) {
    const word = readCell(own);
    if (word === null) cells.delete(cell as CellKey);
    else cells.set(cell as CellKey, word);
  }
  const planned = await checkNext(ground, new Map([[pack, { pack: packOf(pack, cells) }]]), setting);
  const [fault] = planned.faults;
  return fault === undefined
    ? planned
    : `What the shop says of the pack “${pack}” no longer goes together with it, and was left out (${counted(words.length, 'word')}): ${fault.sentence}`;
};
