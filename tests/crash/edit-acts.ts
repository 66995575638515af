import { cpSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { type Edit, type Outcome, openStore, type Store } from '../../db/index.ts';
import type { Part } from '../../reasoner/index.ts';
import { Dice } from '../oracle/dice.ts';
import { expandCode, smallPack } from '../unit/db/packs.ts';

const valueIn = <T>(outcome: Outcome<T>): T => {
  if (!outcome.ok) throw new Error(`${outcome.trouble.code}: ${outcome.trouble.sentence}`);
  return outcome.value;
};

/** Two editions of the small pack, which speak of each other's parts otherwise. */
export const editions = (folder: string): readonly [older: string, newer: string] => {
  const newer = join(folder, 'newer');
  cpSync(smallPack, newer, { recursive: true });
  for (const [file, from, to] of [
    ['pack.json', '2026-03-02', '2026-04-01'],
    ['facts.csv', 'cw-tern-9,cw-blades,8', 'cw-tern-9,cw-blades,10'],
    ['parts.csv', 'journal set', 'newer journal set'],
  ] as const)
    writeFileSync(join(newer, file), readFileSync(join(newer, file), 'utf8').replace(from, to));
  return [smallPack, newer];
};

export const openFor = async (file: string): Promise<Store> =>
  valueIn(await openStore(file, { expandCode, now: () => new Date('2026-03-04T12:00:00.000Z') }));

/** How many things were done with the atlas, each of which is a change of its history; the first is the loading of the pack. */
export const doneIn = async (store: Store): Promise<number> => valueIn(await store.changes.list(null, 200, null)).length;

/** All that is reasoned over, and what the shop says otherwise than the pack, as one text. */
export const textOf = async (store: Store): Promise<string> => {
  const { edition: _edition, ...atlas } = await store.atlas.read();
  const words = [];
  for (const id of ['cw-tern-4', 'cw-tern-9']) {
    const entry = await store.changes.entry('parts', id);
    words.push(entry.ok ? entry.value.words : null);
  }
  return JSON.stringify([atlas, words]);
};

/** The thing with this number, the same whenever it is done: a table of parts and words on a pack's part, an undoing, or another edition of the pack. */
export const act = async (store: Store, n: number, seed: number, packs: readonly [string, string]): Promise<void> => {
  const dice = new Dice(seed * 1000 + n);
  const head = valueIn(await store.changes.look([])).head;
  const saying = { who: 'Ines', why: `${n}`, source: 'a table', head };
  if (n % 5 === 4) {
    const [last] = valueIn(await store.changes.list(null, 200, null)).filter(
      ({ kind, undoneBy }) => kind === 'edited' && undoneBy === null,
    );
    valueIn(await store.changes.undo(last?.change ?? 0, true, saying));
    return;
  }
  if (n % 7 === 3) {
    const [held] = valueIn(await store.packs.list()).filter(({ id }) => id === 'small');
    valueIn(await store.packs.load(packs[held?.edition === '2026-03-02' ? 1 : 0], { anyEdition: true, holds: 'shop' }));
    return;
  }
  const atlas = await store.atlas.read();
  const edits: Edit[] = Array.from({ length: dice.whole(1, 30) }, (_, k) => ({
    list: 'parts',
    put: {
      id: `own-${n}-${k}`,
      slot: 'compressor-wheel',
      name: `Wheel ${n}, ${k}`,
      maker: null,
      numbers: [`K ${n}-${k}`],
      facts: { 'cw-blades': { kind: 'count', from: dice.whole(5, 9), to: 9 } },
      source: 'shop-book',
    },
  }));
  for (const id of ['cw-tern-4', 'cw-tern-9']) {
    const part = atlas.parts.find((each) => each.id === id) as Part;
    const blades = dice.whole(5, 12);
    edits.push({ list: 'parts', put: { ...part, facts: { ...part.facts, 'cw-blades': { kind: 'count', from: blades, to: blades } } } });
  }
  valueIn(await store.changes.make(edits, saying));
};
