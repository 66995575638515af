import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { openDesk } from '../../../electron/desk/open-desk.ts';
import { asId, type PartId, type SheetId, type SlotId } from '../../../reasoner/index.ts';
import { keepSheet } from '../db/keep-sheet.ts';
import { valueIn } from '../db/kit.ts';
import { begunHouse } from './begun-house.ts';
import { kinplateRun } from './kinplate-run.ts';

test('[M1] [M5] [L1] samples of a part are told, taken as the shop’s word only by a change, and open while none stands', async () => {
  const fixtures = path.join(import.meta.dirname, '../db/fixtures');
  const data = mkdtempSync(path.join(tmpdir(), 'kinplate-samples-'));
  const kinplate = (...args: string[]) => kinplateRun([...args, '--data', data], { shipped: fixtures });
  try {
    const house = valueIn(await begunHouse(data, fixtures));
    const { store } = house;
    const desk = openDesk(store);
    const [part, slot] = [asId<PartId>('cw-quay-13'), asId<SlotId>('compressor-wheel')];
    const found = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
    for (const [id, value] of [
      ['one', 57.1],
      ['two', 57.2],
    ] as const) {
      const observations = found.observations.map((each) =>
        each.value.kind === 'measure' ? { ...each, value: { ...each.value, value } } : each,
      );
      valueIn(await keepSheet(store, { ...found, id: asId(id), observations }));
      const { version } = valueIn(await store.sheets.opened(asId(id)));
      valueIn(await desk['samples.keep']({ sheet: asId(id), version, slot, part, who: 'Ines' }));
    }
    const factOf = async () => valueIn(await store.graph.part(part)).facts.find(({ feature }) => feature === 'cw-exducer');
    expect((await factOf())?.fact).toMatchObject({ nominal: 57.1, lower: -0.2 });
    const { edits, source } = valueIn(await desk['samples.word']({ part, feature: asId('cw-exducer') }));
    expect(source).toMatch(/^2 samples of cases A-\d{4}-0001, A-\d{4}-0002$/);
    const { head } = valueIn(await store.changes.look(edits));
    valueIn(await store.changes.make(edits, { who: 'Ines', why: '', source, head }));
    expect(await factOf()).toEqual({
      feature: 'cw-exducer',
      fact: { kind: 'measure', nominal: 57.15, lower: -0.09, upper: 0.09 },
      source: 'samples-cw-quay-13-cw-exducer',
      packSays: { fact: { kind: 'measure', nominal: 57.1, lower: -0.2, upper: 0.2 }, source: 'shop-book' },
    });
    await house.close();

    const told = await kinplate('samples', 'cw-quay-13');
    expect(told.code).toBe(exitCodes.stands);
    expect(told.out).toContain('measured\tcw-exducer\t2\t57.15\t0.070711\tnot known\ttoo few\n');
    expect(told.out).toContain('seen\tcw-blades\t7\t2\t\n');
    const { out } = await kinplate('samples', 'cw-quay-13', '--format', 'json');
    const packs = JSON.parse(out).features.map(({ feature, pack }: Record<string, unknown>) => [feature, pack]);
    expect(Object.fromEntries(packs)).toEqual({
      'cw-blades': null,
      'cw-exducer': { kind: 'measure', nominal: 57.1, lower: -0.2, upper: 0.2 },
    });
    expect(JSON.parse(out)).toMatchObject({ samples: [{}, {}, {}, {}], cases: [{ sheet: 'one' }, { sheet: 'two' }] });
    expect((await kinplate('samples', 'cw-tern-4')).code).toBe(exitCodes.open);
    expect(await kinplate('samples', 'cw-heron')).toMatchObject({ out: '', err: expect.stringContaining('cw-heron') });
  } finally {
    rmSync(data, { recursive: true, force: true });
  }
});
