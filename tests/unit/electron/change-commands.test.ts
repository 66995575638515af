import { readFileSync, writeFileSync } from 'node:fs';
import { dirname, join } from 'node:path';
import { expect, test } from 'vitest';
import { asId, type ObservationId, type SheetId } from '../../../reasoner/index.ts';
import { keepSheet } from '../db/keep-sheet.ts';
import { freshFolder, freshStore, smallPack, valueIn } from '../db/kit.ts';
import { kinplateRun } from './kinplate-run.ts';

const shipped = dirname(smallPack);
const wheel = {
  id: 'own-wheel',
  slot: 'compressor-wheel',
  name: 'Our wheel',
  maker: null,
  numbers: ['K 77-1'],
  facts: {},
  source: 'shop-book',
};

/** The commands over one data folder with the small pack in it. */
const folderWithPack = async (data = freshFolder()) => {
  const run = (args: readonly string[], input?: unknown) =>
    kinplateRun([...args, '--data', data], { shipped, ...(input === undefined ? {} : { input: () => JSON.stringify(input) }) });
  expect((await run(['pack', 'load', smallPack])).code).toBe(0);
  return run;
};

test('[E1] what the shop keeps of a part goes along where another takes its place, and is told', async () => {
  const run = await folderWithPack();
  expect((await run(['change', 'make', '-'], [{ list: 'parts', put: wheel }])).code).toBe(0);
  const prices = join(freshFolder(), 'prices.csv');
  writeFileSync(prices, 'part,price,money,note\nown-wheel,120,XTS,\ncw-tern-4,90,XTS,\n');
  expect((await run(['prices', 'read', prices])).code).toBe(0);
  const renamed = [
    { list: 'parts', put: { ...wheel, id: 'our-wheel' } },
    { list: 'parts', drop: 'own-wheel', into: 'our-wheel' },
  ];
  const told = 'carried over, parts/own-wheel to parts/our-wheel: prices 1\n';
  expect((await run(['change', 'look', '-'], renamed)).out).toContain(told);
  expect((await run(['change', 'make', '-'], renamed)).out).toContain(told);
  const into = [{ list: 'parts', drop: 'our-wheel', into: 'cw-tern-4' }];
  expect((await run(['change', 'look', '-'], into)).out).toContain(
    'not carried over, parts/our-wheel to parts/cw-tern-4: price 120 XTS, for 90 XTS is asked there\n',
  );
  const nowhere = await run(['change', 'make', '-'], [{ list: 'parts', drop: 'our-wheel', into: 'nowhere' }]);
  expect([nowhere.code, nowhere.err]).toEqual([65, expect.stringContaining('“nowhere”, which the atlas would not have')]);
  const back = JSON.parse((await run(['change', 'undo', '3', '--format', 'json'])).out);
  expect(back.carried).toMatchObject([{ from: 'our-wheel', to: 'own-wheel', rows: [{ of: 'prices', many: 1 }] }]);
});

test('[H3] edits are looked at, made, told in the history and undone from a script', async () => {
  const run = await folderWithPack();
  const put = [{ list: 'parts', put: wheel }];
  const looked = await run(['change', 'look', '-'], put);
  expect([looked.code, looked.out.split('\n')[0]]).toEqual([0, expect.stringContaining('parts +1')]);
  expect(looked.out).toContain('parts/own-wheel/name\t\t"Our wheel"\n');
  expect((await run(['changes'])).out.trim().split('\n')).toHaveLength(1);

  const made = await run(['change', 'make', '-', '--who', 'Ines', '--why', 'from the Harlow job', '--source', 'the bench'], put);
  expect([made.code, made.out]).toEqual([0, expect.stringMatching(/^Change 2: .*parts \+1/)]);
  expect((await run(['change', 'make', '-'], put)).out).toBe('The atlas says all of that already. Nothing was changed.\n');
  const history = (await run(['changes', '--of', 'parts/own-wheel'])).out.trim().split('\n');
  expect(history).toHaveLength(1);
  expect(history[0]?.split('\t').slice(0, 7)).toEqual([
    '2',
    expect.stringMatching(/^\d{4}-\d{2}-\d{2}T/),
    'edited',
    expect.stringMatching(/^shop-[0-9a-f]{8}$/),
    'Ines',
    'from the Harlow job',
    'the bench',
  ]);
  expect(JSON.parse((await run(['change', 'show', '2', '--format', 'json'])).out)).toMatchObject({ change: 2, undoes: null });

  const later = [{ list: 'parts', put: { ...wheel, id: 'own-later', numbers: [], supersedes: 'own-wheel' } }];
  expect((await run(['change', 'make', '-'], later)).code).toBe(0);
  const stopped = await run(['change', 'undo', '2']);
  expect([stopped.code, stopped.err]).toEqual([65, expect.stringContaining('part “own-wheel”')]);
  const looking = await run(['change', 'undo', '2', '--look']);
  expect([looking.code, looking.err]).toEqual([0, 'in the way: parts/own-wheel']);
  expect((await run(['change', 'undo', '3'])).out).toMatch(/^Change 4: parts -1/);
  expect((await run(['change', 'undo', '2'])).code).toBe(0);
  expect((await run(['change', 'undo', '77'])).code).toBe(66);

  // A pack is taken out and brought back the same way, once nothing speaks of it.
  expect((await run(['pack', 'remove', 'small'])).code).toBe(0);
  expect((await run(['packs'])).out).not.toContain('small');
  expect((await run(['change', 'undo', '6'])).code).toBe(0);
  expect((await run(['packs'])).out).toContain('small');
  expect((await run(['pack', 'remove', 'nobody'])).code).toBe(66);
});

test('[H3] what saved cases would be told is told before a change is made or undone, where that is asked', async () => {
  const data = freshFolder();
  const run = await folderWithPack(data);
  const store = await freshStore({ file: join(data, 'atlas.sqlite') });
  const sheet = valueIn(await store.sheets.open(asId<SheetId>('found-01')));
  valueIn(await keepSheet(store, { ...sheet, id: asId('counter'), title: 'On the counter' }));
  const [count] = sheet.observations;
  if (count === undefined) throw new Error('nothing counted');
  const both = [count, { ...count, id: asId<ObservationId>('again'), value: { kind: 'count', from: 5, to: 5 } as const }];
  valueIn(await keepSheet(store, { ...sheet, id: asId('both'), title: 'Two counts', observations: both }));
  await store.close();

  const models = JSON.parse(readFileSync(join(smallPack, 'models.json'), 'utf8')) as { readonly id: string }[];
  const put = [{ list: 'models', put: { ...models.find(({ id }) => id === 'petrel-13'), name: 'Petrel 14 Cartridge' } }];
  expect(JSON.parse((await run(['change', 'look', '-', '--format', 'json'], put)).out)).not.toHaveProperty('cases');
  const looked = await run(['change', 'look', '-', '--cases'], put);
  expect(looked.code).toBe(0);
  expect(looked.out).toContain('A-2026-0001\ttold otherwise\tOn the counter\n  is told: ');
  expect(looked.err).toBe('· 1 of 2 cases would be judged otherwise, 1 the same');
  const { cases } = JSON.parse((await run(['change', 'look', '-', '--cases', '--format', 'json'], put)).out);
  expect(cases).toMatchObject({
    judged: 2,
    of: 2,
    same: 1,
    neither: 0,
    complete: true,
    cases: [{ sheet: 'counter', how: 'told otherwise' }],
  });
  expect(looked.out).toContain(`  would be told: ${cases.cases[0].would.honest.join(' or ')}`);

  const stopped = await kinplateRun(['change', 'look', '-', '--cases', '--data', data], {
    shipped,
    input: () => JSON.stringify(put),
    stopped: () => true,
  });
  expect([stopped.code, stopped.err]).toEqual([130, expect.stringContaining('stopped before all 2 were judged')]);
  const faulty = await run(['change', 'look', '-', '--cases', '--format', 'json'], [{ list: 'models', drop: 'nobody' }]);
  expect([faulty.code, JSON.parse(faulty.out).cases]).toEqual([65, undefined]);

  expect((await run(['change', 'make', '-'], put)).code).toBe(0);
  const undone = await run(['change', 'undo', '2', '--look', '--cases', '--format', 'json']);
  const [back] = JSON.parse(undone.out).cases.cases;
  expect([back.is, back.would], 'and back').toEqual([cases.cases[0].would, cases.cases[0].is]);
  expect((await run(['change', 'undo', '2', '--cases'])).code).toBe(64);
});

test('[H4] faults of edits come all at once, and no edits are told from a file that holds none', async () => {
  const run = await folderWithPack();
  const faulty = [
    { list: 'parts', put: { ...wheel, slot: 'nowhere', name: '' } },
    { list: 'makers', drop: 'nobody' },
  ];
  const looked = await run(['change', 'look', '-'], faulty);
  expect([looked.code, looked.out, looked.err.split('\n').length]).toEqual([65, '', 2]);
  expect((await run(['change', 'make', '-'], faulty)).code).toBe(65);
  const file = join(freshFolder(), 'edits.json');
  expect((await run(['change', 'look', file])).code).toBe(66);
  for (const text of ['{', '{}', '[]', '[{"list":"parts"}]']) {
    writeFileSync(file, text);
    const refused = await run(['change', 'make', file]);
    expect([text, refused.code, refused.err.includes(file)]).toEqual([text, 65, true]);
  }
});

test('[H2] the atlas as it stood on a day is written as packs', async () => {
  const run = await folderWithPack();
  const atlas = JSON.parse(readFileSync(join(smallPack, 'models.json'), 'utf8')) as { readonly id: string; readonly name: string }[];
  const tern = { ...atlas[0], name: 'Tern 5' };
  expect((await run(['change', 'make', '-'], [{ list: 'models', put: tern }])).code).toBe(0);
  const folder = join(freshFolder(), 'out');
  expect((await run(['atlas', 'write', folder])).out).toBe('small\n');
  expect(readFileSync(join(folder, 'small', 'models.json'), 'utf8')).toContain('"Tern 5"');
  expect((await run(['atlas', 'write', folder])).code).toBe(73);
  const before = join(freshFolder(), 'before');
  expect((await run(['atlas', 'write', before, '--on', '2020-01-01'])).out).toBe('');
  expect((await run(['atlas', 'write', before, '--on', 'yesterday'])).code).toBe(64);
});
