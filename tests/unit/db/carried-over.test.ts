import { expect, test } from 'vitest';
import { mergeEdits } from '../../../db/changes/merge-edits.ts';
import { renameEdits } from '../../../db/changes/rename-edits.ts';
import type { Atlas, Part } from '../../../reasoner/index.ts';
import { filledStore, valueIn } from './kit.ts';

const saying = { who: 'Ines', why: 'one and the same', source: '' };

/** Texts of the atlas as JSON: ids in it stand in quotes. */
const written = (atlas: Atlas): string => JSON.stringify({ ...atlas, edition: '' });
const times = (text: string, id: string): number => text.split(JSON.stringify(id)).length - 1;

test('[E1] [H2] renamed in a store, a part, a feature, a maker, a model and a source are so wherever they stand; undone, all is as it was', async () => {
  const store = await filledStore();
  const atlas = await store.atlas.read();
  for (const [list, id] of [
    ['parts', 'cw-petrel-13'],
    ['features', 'bh-spigot-diameter'],
    ['makers', 'tarnwick'],
    ['models', 'tern-4'],
    ['sources', 'bench'],
  ] as const) {
    const edits = renameEdits(atlas, list, id, 'called-anew');
    const seen = valueIn(await store.changes.look(edits));
    expect(seen.faults, list).toEqual([]);
    const { change, head } = valueIn(await store.changes.make(edits, { ...saying, head: seen.head }));
    const after = written(await store.atlas.read());
    expect(times(after, id), list).toBe(0);
    expect(times(after, 'called-anew'), list).toBe(times(written(atlas), id));
    valueIn(await store.changes.undo(change as number, false, { who: '', why: '', head }));
    expect(written(await store.atlas.read()), list).toBe(written(atlas));
  }
});

test('[E1] [H2] what a sample of a pack names keeps its id, since samples are not edited; that is said', async () => {
  const store = await filledStore();
  const { faults } = valueIn(await store.changes.look(renameEdits(await store.atlas.read(), 'features', 'cw-blades', 'blades')));
  expect(faults.map(({ list, found }) => [list, found])).toEqual([['sheets', '"cw-blades"']]);
});

test('[E1] [H2] made one in a store, two parts are one in every model, and the one that goes is nowhere', async () => {
  const store = await filledStore();
  const atlas = await store.atlas.read();
  const { edits } = mergeEdits(atlas, 'parts', 'cw-tern-9', 'cw-tern-4', { name: 'kept' });
  const seen = valueIn(await store.changes.look(edits));
  expect(seen.faults).toEqual([]);
  valueIn(await store.changes.make(edits, { ...saying, head: seen.head }));
  const after = await store.atlas.read();
  expect(times(written(after), 'cw-tern-9')).toBe(0);
  const kept = after.parts.find(({ id }) => id === ('cw-tern-4' as Part['id']));
  expect(kept?.numbers).toEqual(['BERTH 310-0046', 'BERTH 310-0052']);
  expect(after.models.filter(({ allowed }) => allowed.some(({ part }) => part === kept?.id)).map(({ id }) => id)).toEqual([
    'tern-4',
    'tern-9',
    'rowan-iv-18',
  ]);
});
