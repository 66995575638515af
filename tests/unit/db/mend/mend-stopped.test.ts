import { existsSync, readdirSync, readFileSync, renameSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { beforeAll, describe, expect, onTestFinished, test } from 'vitest';
import { checkAtlas, type MendReport, type MendStep, type Outcome, openStore } from '../../../../db/index.ts';
import { openAtlas } from '../../../../electron/desk/open-house.ts';
import { sheetNumber } from '../../../damage/shop.ts';
import { freshConnection, freshFolder, troubleIn, valueIn } from '../kit.ts';
import { damageTo, everythingIn, mend, shopFilledFirst, spoilPage } from './damaged-shop.ts';

const steps: readonly MendStep[] = ['checked', 'read', 'made', 'put back', 'verified', 'written', 'ready', 'set aside', 'in place', 'done'];

const { damagedFolder, noRoots, rootOf } = damageTo(shopFilledFirst());

describe('stopped anywhere', () => {
  class Stopped extends Error {}

  let expected: Awaited<ReturnType<typeof everythingIn>>;
  beforeAll(async () => {
    const { folder, file } = await noRoots();
    valueIn(await mend(folder));
    expected = await everythingIn(file);
  });

  test.each(steps)('[P3] after “%s”: the next run finishes it, and all of it is there', async (stop) => {
    const { folder, file, bytes } = await noRoots();
    await expect(
      mend(folder, (step) => {
        if (step === stop) throw new Stopped();
      }),
    ).rejects.toThrow(Stopped);
    // An ordinary opening in between never makes a fresh atlas in its place.
    if (!existsSync(file)) expect(troubleIn(await openAtlas(file)).code).toBe('mend-unfinished');
    const report = valueIn(await mend(folder));
    expect(report.state).toBe(
      ['ready', 'checked', 'read', 'made', 'put back', 'verified', 'written'].includes(stop)
        ? 'mended'
        : stop === 'done'
          ? 'sound'
          : 'finished',
    );
    if (report.state !== 'sound') expect(report.back).toMatchObject({ sheets: 20, cases: 20 });
    expect(await everythingIn(file)).toEqual(expected);
    const aside = readdirSync(folder).filter((name) => /damaged-.*Z$/.test(name));
    expect(aside.map((name) => readFileSync(join(folder, name)).equals(bytes))).toEqual([true]);
    expect(readdirSync(folder).filter((name) => /mend|part/.test(name))).toEqual([]);
    expect(valueIn(await mend(folder)).state).toBe('sound');
  });

  test('[P3] a journal that was not moved yet is moved with its file, and never read into the new one', async () => {
    const { folder, file } = await noRoots();
    await expect(
      mend(folder, (step) => {
        if (step === 'set aside') throw new Stopped();
      }),
    ).rejects.toThrow(Stopped);
    writeFileSync(`${file}-wal`, 'the old journal');
    const report = valueIn(await mend(folder));
    expect(readFileSync(`${report.aside}-wal`, 'utf8')).toBe('the old journal');
    expect(valueIn(await checkAtlas(file))).toEqual([]);
  });

  test('[P3] set aside by an older program that was stopped then, with nothing in its place: it is mended from there', async () => {
    const { folder, file } = await noRoots();
    renameSync(file, `${file}.damaged-2026-03-03T08-00-00-000Z`);
    const report: MendReport = valueIn(await mend(folder));
    expect(report).toMatchObject({ state: 'mended', aside: `${file}.damaged-2026-03-03T08-00-00-000Z`, back: { sheets: 20 } });
    expect((await everythingIn(file)).own).toHaveLength(20);
  });

  test('[P3] a new atlas that is not whole never takes the place of the old one', async () => {
    const { folder, file, bytes } = await noRoots();
    const trouble = troubleIn(
      await mend(folder, (step) => {
        if (step !== 'put back') return;
        const built = readFileSync(`${file}.mending`);
        spoilPage(built, 60);
        writeFileSync(`${file}.mending`, built);
      }),
    );
    expect(trouble.sentence).toContain('nothing was changed');
    expect(readFileSync(file).equals(bytes)).toBe(true);
    expect(valueIn(await mend(folder)).state).toBe('mended');
  });

  test('[P3] where there is no atlas there is nothing to mend', async () => {
    const folder = freshFolder();
    expect(troubleIn(await mend(folder)).code).toBe('database-cannot-open');
    expect(readdirSync(folder)).toEqual([]);
  });

  test('[P3] only the shop may read what mending writes', async () => {
    const { folder, file } = await noRoots();
    const report = valueIn(await mend(folder));
    expect(statSync(file).mode & 0o777).toBe(0o600);
    expect(statSync(report.folder ?? '').mode & 0o777).toBe(0o700);
    for (const name of readdirSync(report.folder ?? '')) expect(statSync(join(report.folder ?? '', name)).mode & 0o077).toBe(0);
  });
});

describe('a window that has the damaged file open', () => {
  /** A program that had the atlas open before it was damaged, and what it saves. */
  const withWindow = async () => {
    const { folder, file } = damagedFolder(() => undefined);
    const store = valueIn(await openStore(file));
    onTestFinished(() => store.close());
    const root = await rootOf('drill_cards');
    const bytes = readFileSync(file);
    spoilPage(bytes, root);
    writeFileSync(file, bytes);
    const save = (notes: string) => store.cases.describe(sheetNumber(3), { customer: 'Harbour', lookedBy: 'Osk', notes });
    return { folder, file, save };
  };
  const notesIn = async (file: string) => (await everythingIn(file)).sheets.find(({ sheet }) => sheet.id === sheetNumber(3))?.file;

  test('[P3] what it saves while the rest is mended is there: the old file is left in its place, and mending it again has it', async () => {
    const { folder, file, save } = await withWindow();
    let saved: Outcome<unknown> | null = null;
    const trouble = troubleIn(
      await mend(folder, async (step) => {
        if (step === 'put back') saved = await save('Saved meanwhile.');
      }),
    );
    expect(saved).toMatchObject({ ok: true });
    expect(trouble).toMatchObject({ code: 'changed-since', place: file });
    expect(trouble.sentence).toContain('Close');
    expect(valueIn(await mend(folder)).state).toBe('mended');
    expect(await notesIn(file)).toMatchObject({ notes: 'Saved meanwhile.' });
  });

  test.each<MendStep>(['set aside', 'in place', 'done'])(
    '[P3] what it would save after “%s” is refused, for it would go into the file that is put aside',
    async (at) => {
      const { folder, file, save } = await withWindow();
      let saved: Outcome<unknown> | null = null;
      const report = valueIn(
        await mend(folder, async (step) => {
          if (step === at) saved = await save('Saved too late.');
        }),
      );
      expect(report.state).toBe('mended');
      expect(saved).toMatchObject({ ok: false, trouble: { code: 'atlas-moved', place: file } });
      expect(await notesIn(file)).not.toMatchObject({ notes: 'Saved too late.' });
    },
  );

  test('[P3] what it is in the middle of saving is waited for', async () => {
    const { folder, file } = await withWindow();
    const writer = await freshConnection(file);
    let saved: Promise<void> | null = null;
    const trouble = troubleIn(
      await mend(folder, async (step) => {
        if (step !== 'ready') return;
        await new Promise<void>((begun) => {
          saved = writer.transaction('immediate', async () => {
            await writer.run('update case_details set notes = ? where sheet = ?', ['Begun before.', sheetNumber(3)]);
            begun();
            await new Promise((resolve) => setTimeout(resolve, 300));
          });
        });
      }),
    );
    await saved;
    expect(trouble).toMatchObject({ code: 'changed-since', place: file });
    expect(valueIn(await mend(folder)).state).toBe('mended');
    expect(await notesIn(file)).toMatchObject({ notes: 'Begun before.' });
  });
});
