import { expect, test } from 'vitest';
import { caseSource, type Store, type Version } from '../../../db/index.ts';
import { asId, type PartId, type Sample, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { keepSheet } from './keep-sheet.ts';
import { filledStore, troubleIn, valueIn } from './kit.ts';

const slot = asId<SlotId>('compressor-wheel');
const [quay, petrel] = [asId<PartId>('cw-quay-13'), asId<PartId>('cw-petrel-13')];

/** A case like the found one, and what is kept of it. */
const caseOf = async (store: Store, id: string) => {
  const found = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  const sheet = asId<SheetId>(id);
  valueIn(await keepSheet(store, { ...found, id: sheet }));
  const { version } = valueIn(await store.sheets.opened(sheet));
  const sample = (value: number): Sample & { how: string } => ({
    feature: asId('cw-exducer'),
    value: { kind: 'measure', value },
    u: 0.02,
    how: 'calliper',
    sheet,
    entry: asId('o2'),
  });
  const keep = (part: PartId, value: number, against: Version = version) =>
    store.samples.keep({ part, slot, sheet, version: against, samples: [sample(value)] }, 'Ines');
  return { sheet, keep, version, sample };
};
const standing = async (store: Store, part: PartId) => valueIn(await store.samples.of(part)).filter(({ out }) => out === null);

test('[M4] what a case says of a part is kept once; said otherwise, or of another part, the former is taken out and stays to be read', async () => {
  const store = await filledStore();
  const { keep } = await caseOf(store, 'counter-01');
  const edition = valueIn(await store.atlas.state());
  expect(valueIn(await keep(quay, 57.1))).toEqual({ fresh: 1, same: 0, out: 0 });
  expect(valueIn(await keep(quay, 57.1))).toEqual({ fresh: 0, same: 1, out: 0 });
  expect(valueIn(await keep(quay, 57.12))).toEqual({ fresh: 1, same: 0, out: 1 });
  expect(await standing(store, quay)).toMatchObject([
    { value: { kind: 'measure', value: 57.12 }, u: 0.02, how: 'calliper', entry: 'o2', number: 'A-2026-0001', who: 'Ines' },
  ]);
  expect(valueIn(await keep(petrel, 57.12))).toEqual({ fresh: 1, same: 0, out: 1 });
  expect(await standing(store, quay)).toEqual([]);
  expect(valueIn(await store.samples.of(quay)).map(({ out }) => out?.who)).toEqual(['Ines', 'Ines']);
  expect(valueIn(await store.atlas.state()), 'nothing of it alters the atlas').toEqual(edition);
});

test('[M4] one that is taken out says who did it, is taken out once, and is not taken for standing again', async () => {
  const store = await filledStore();
  const { keep } = await caseOf(store, 'counter-01');
  valueIn(await keep(quay, 57.1));
  const [sample] = await standing(store, quay);
  if (sample === undefined) throw new Error('none');
  valueIn(await store.samples.takeOut(sample.id, 'Osk'));
  expect(valueIn(await store.samples.of(quay))).toMatchObject([{ out: { who: 'Osk' } }]);
  expect(troubleIn(await store.samples.takeOut(sample.id, 'Osk')).code).toBe('not-found');
  expect(valueIn(await keep(quay, 57.1))).toEqual({ fresh: 1, same: 0, out: 0 });
});

test('[M4] a part of another place, one that is not there, nothing to keep, and a case saved meanwhile are refused', async () => {
  const store = await filledStore();
  const { keep, sheet, version } = await caseOf(store, 'counter-01');
  expect(troubleIn(await keep(asId('bh-tern'), 57.1)).code).toBe('sample-unfit');
  expect(troubleIn(await keep(asId('cw-heron'), 57.1)).code).toBe('not-found');
  expect(troubleIn(await keep(quay, 57.1, '0'.repeat(64) as Version)).code).toBe('changed-since');
  expect(troubleIn(await store.samples.keep({ part: quay, slot, sheet, version, samples: [] }, '')).code).toBe('sample-unfit');
  expect(troubleIn(await store.samples.keep({ part: quay, slot, sheet: asId('found-01'), version, samples: [] }, '')).code).toBe(
    'not-found',
  );
  expect(valueIn(await store.samples.of(quay))).toEqual([]);
});

test('[M4] cases of a part: those it was measured in, and those that are its source or a fact’s; one that is removed is named without a link', async () => {
  const store = await filledStore();
  const first = await caseOf(store, 'counter-01');
  const second = await caseOf(store, 'counter-02');
  valueIn(await first.keep(quay, 57.1));
  const source = caseSource('A-2026-0002', second.sheet);
  const { entry, head } = valueIn(await store.changes.entry('parts', quay));
  const edits = [
    { list: 'sources', put: { id: source, title: 'Case A-2026-0002', kind: 'measured in the shop' } },
    { list: 'parts', put: { ...entry, factSources: { 'cw-exducer': source } } },
  ];
  valueIn(await store.changes.make(edits, { who: '', why: '', source: '', head }));
  expect(valueIn(await store.samples.casesOf(quay))).toMatchObject([
    { number: 'A-2026-0001', sheet: 'counter-01', photos: 0 },
    { number: 'A-2026-0002', sheet: 'counter-02' },
  ]);
  valueIn(await store.sheets.remove(first.sheet));
  valueIn(await store.sheets.remove(second.sheet));
  expect(valueIn(await store.samples.casesOf(quay)).map(({ number, sheet }) => [number, sheet])).toEqual([
    ['A-2026-0001', null],
    ['A-2026-0002', null],
  ]);
  expect((await standing(store, quay)).length, 'what was measured stays').toBe(1);
});
