import { appendFile, cp, readFile, stat, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { beforeAll, describe, expect, test } from 'vitest';
import type { Atlas, SheetId } from '../../reasoner/index.ts';
import { keepSheet } from '../unit/db/keep-sheet.ts';
import { filledStore, freshFolder, freshStore, smallPack, valueIn } from '../unit/db/kit.ts';
import { built, start } from './child.ts';

let loadPack: string;
let saveSheets: string;
beforeAll(async () => {
  loadPack = await built('load-pack');
  saveSheets = await built('save-sheets');
});

/** A newer edition of the small pack, told from the older by a part's name. */
const newerPack = async (): Promise<string> => {
  const folder = join(freshFolder(), 'newer');
  await cp(smallPack, folder, { recursive: true });
  for (const [file, from, to] of [
    ['pack.json', '2026-03-02', '2026-04-01'],
    ['parts.csv', 'journal set', 'newer journal set'],
  ] as const) {
    await writeFile(join(folder, file), (await readFile(join(folder, file), 'utf8')).replace(from, to));
  }
  return folder;
};

const atlasAfter = async (file: string): Promise<Atlas> => {
  const store = await freshStore({ file });
  return await store.atlas.read();
};

describe('killed in the middle of a load', () => {
  const steps = ['reading', 'checking', 'terms', 'names', 'parts', 'sheets', 'search', 'loaded'];

  test.each(steps)('at “%s”: the old state is whole, own sheets with it, and the load succeeds afterwards', async (step) => {
    const folder = freshFolder();
    const file = join(folder, 'atlas.sqlite');
    const store = await filledStore({ file });
    const before = await store.atlas.read();
    const sample = valueIn(await store.sheets.open('found-01' as SheetId));
    valueIn(await keepSheet(store, { ...sample, id: 'mine' as SheetId }));
    await store.close();

    const newer = await newerPack();
    const program = start(loadPack, [file, newer, step]);
    await program.line(step);
    program.child.kill('SIGKILL');
    expect(await program.ended).toMatchObject({ signal: 'SIGKILL' });
    expect(program.lines).not.toContain('committed');

    const again = await freshStore({ file });
    expect(await again.atlas.read()).toEqual(before);
    expect(valueIn(await again.sheets.open('mine' as SheetId))).toEqual({ ...sample, id: 'mine' });
    expect(valueIn(await again.packs.load(newer))).toMatchObject({ changed: true, replaced: '2026-03-02' });
    expect((await again.atlas.read()).parts.map((part) => part.name)).toContain('newer journal set');
  });

  test('at any moment: the atlas is the old one or the new one, never something between', async () => {
    const newer = await newerPack();
    const oldAtlas = await (await filledStore()).atlas.read();
    const both = await filledStore();
    valueIn(await both.packs.load(newer));
    const newAtlas = await both.atlas.read();

    const begun = async () => {
      const file = join(freshFolder(), 'atlas.sqlite');
      await (await filledStore({ file })).close();
      const program = start(loadPack, [file, newer]);
      await program.line('opened');
      return { file, program };
    };
    const whole = await begun();
    const from = performance.now();
    await whole.program.line('committed');
    const step = (performance.now() - from) / 16;
    await whole.program.ended;

    const seen = { old: 0, new: 0 };
    // Each time killed a little later, until the load gets through: across the whole of it, on a slow machine as on a quick one.
    for (let delay = 0; seen.new < 2; delay += step) {
      const { file, program } = await begun();
      await new Promise((resolve) => setTimeout(resolve, delay));
      program.child.kill('SIGKILL');
      await program.ended;
      const atlas = await atlasAfter(file);
      if (atlas.edition === oldAtlas.edition) {
        seen.old += 1;
        expect(atlas).toEqual(oldAtlas);
        expect(program.lines).not.toContain('committed');
      } else {
        seen.new += 1;
        expect(atlas).toEqual(newAtlas);
      }
    }
    expect(seen.old).toBeGreaterThan(0);
  });

  test('of a pack too large for SQLite’s memory, whose pages are on the disk already: the old state is whole', async () => {
    const file = join(freshFolder(), 'atlas.sqlite');
    const store = await filledStore({ file });
    const before = await store.atlas.read();
    await store.close();
    const newer = await newerPack();
    const [parts, facts]: [string[], string[]] = [[], []];
    for (let n = 0; n < 20_000; n += 1) {
      parts.push(`cw-${n},compressor-wheel,Wheel ${n},merrowby,LM 9-${n},,,shop-book`);
      facts.push(`cw-${n},cw-exducer,${(30 + n / 1000).toFixed(3)},-0.05,0.05,,`);
    }
    await appendFile(join(newer, 'parts.csv'), `${parts.join('\n')}\n`);
    await appendFile(join(newer, 'facts.csv'), `${facts.join('\n')}\n`);
    const program = start(loadPack, [file, newer, 'loaded']);
    await program.line('loaded');
    // The load has written past SQLite's two megabytes of memory, into the journal beside the file.
    expect((await stat(`${file}-wal`)).size).toBeGreaterThan(1_000_000);
    program.child.kill('SIGKILL');
    await program.ended;
    const again = await freshStore({ file });
    expect(await again.atlas.read()).toEqual(before);
  });

  test('of a new file: nothing half-made is left, and it fills the next time', async () => {
    for (const step of ['reading', 'parts', 'loaded']) {
      const file = join(freshFolder(), 'atlas.sqlite');
      const program = start(loadPack, [file, smallPack, step]);
      await program.line(step);
      program.child.kill('SIGKILL');
      await program.ended;
      const store = await freshStore({ file });
      expect(await store.atlas.read()).toMatchObject({ edition: '', parts: [] });
      expect(valueIn(await store.packs.load(smallPack))).toMatchObject({ changed: true });
    }
  });
});

test('killed while saving sheets: every sheet that was said to be saved is there, and whole', async () => {
  for (const delay of [40, 120, 260]) {
    const file = join(freshFolder(), 'atlas.sqlite');
    await (await freshStore({ file })).close();
    const program = start(saveSheets, [file]);
    await program.line('own-3');
    await new Promise((resolve) => setTimeout(resolve, delay));
    program.child.kill('SIGKILL');
    await program.ended;
    const store = await freshStore({ file });
    const kept = new Set(valueIn(await store.sheets.list()).map((sheet) => sheet.id as string));
    // The last line may have been cut by the kill; every whole one stands for a sheet.
    for (const id of program.lines.filter((line) => /^own-\d+$/.test(line)).slice(0, -1)) {
      expect(kept).toContain(id);
      valueIn(await store.sheets.open(id as SheetId));
    }
    expect(kept.size).toBeGreaterThanOrEqual(4);
  }
});
