import { cpSync, existsSync, mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, describe, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-pack-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
const kinplate = (...args: string[]) => kinplateRun(args, { shipped: scratch });

/** A copy of the small pack in which the first model lists nothing in the slots left out. */
const packWithout = (name: string, slots: (slot: string) => boolean): string => {
  const pack = path.join(scratch, name);
  cpSync(smallPack, pack, { recursive: true });
  const file = path.join(pack, 'allowed.csv');
  const models = JSON.parse(readFileSync(path.join(pack, 'models.json'), 'utf8')) as { id: string }[];
  const rows = readFileSync(file, 'utf8').split('\n');
  writeFileSync(file, rows.filter((row) => !row.startsWith(`${models[0]?.id},`) || !slots(row.split(',')[1] ?? '')).join('\n'));
  return pack;
};

describe('[A7] warnings of a pack that is sound', () => {
  const gaps = packWithout('gaps', (slot) => slot === 'bearing-housing' || slot === 'compressor-housing');

  test('[A7] they are printed after what it holds, and the exit code is that of a sound pack', async () => {
    const { code, out, err } = await kinplate('pack', 'check', gaps, '--alone');
    expect(code).toBe(exitCodes.stands);
    expect(err).toBe('');
    expect(out).toMatch(/is sound: /);
    expect(out).toMatch(/\n\d+ warnings:\n/);
    expect(out).toMatch(
      /\nmodels\.json:2:3: the model ".*" lists nothing for the bearing housing\. What sits there is not known, so none of its names can ever stand\.\n/,
    );
    expect(out).toMatch(
      /lists nothing for the compressor housing; the same of "quay-13"\. What sits there is not known, so no name that speaks of that housing can ever stand\.\n/,
    );
  });

  test('[A7] as JSON, each with its place, what was found and what it means', async () => {
    const { code, out } = await kinplate('pack', 'check', gaps, '--alone', '--format', 'json');
    expect(code).toBe(exitCodes.stands);
    const told = JSON.parse(out) as { sound: boolean; faults: unknown[]; warnings: Record<string, unknown>[] };
    expect(told).toMatchObject({ sound: true, faults: [], pack: { id: 'small' }, counts: { models: 5 } });
    expect(told.warnings[0]).toMatchObject({
      code: 'pack-warning',
      file: 'models.json',
      row: 2,
      column: '[0]',
      line: 2,
      character: 3,
      many: 1,
      means: 'What sits there is not known, so none of its names can ever stand.',
    });
  });

  test('[A7] loading says how many there are, and loads', async () => {
    const { code, out, err } = await kinplate('pack', 'load', gaps, '--data', path.join(scratch, 'gaps-data'));
    expect(code).toBe(exitCodes.stands);
    expect(out).toMatch(/^Loaded small/);
    expect(err).toMatch(/\d+ warnings; pack check tells them\./);
  });
});

describe('[A7] a model that lists nothing', () => {
  const empty = packWithout('empty', () => true);
  const told =
    /models\.json(, row 2, column \[0\]|:2:3): found the model ".*" with no part listed as names or option, expected at least one part in allowed\.csv/;

  test('[A7] is a fault of the pack, at checking and at loading', async () => {
    expect(await kinplate('pack', 'check', empty, '--alone')).toMatchObject({
      code: exitCodes.badInput,
      out: '',
      err: expect.stringMatching(told),
    });
    const data = path.join(scratch, 'empty-data');
    expect(await kinplate('pack', 'load', empty, '--data', data)).toMatchObject({
      code: exitCodes.badInput,
      err: expect.stringMatching(told),
    });
    expect((await kinplate('packs', '--data', data)).out).toBe('');
    expect(await kinplate('sheets', '--pack', empty)).toMatchObject({ code: exitCodes.badInput, out: '' });
  });

  test('[A7] as JSON, with its place', async () => {
    const { code, out } = await kinplate('pack', 'check', empty, '--alone', '--format', 'json');
    expect(code).toBe(exitCodes.badInput);
    expect(JSON.parse(out)).toMatchObject({
      sound: false,
      faults: [{ file: 'models.json', row: 2, column: '[0]', line: 2, character: 3 }],
    });
  });
});

test('[A7] the demo pack has a naming slot in every model', async () => {
  const { code, out } = await kinplate('pack', 'check', path.join(import.meta.dirname, '../../../seed-data/demo-pack'), '--alone');
  expect(code).toBe(exitCodes.stands);
  expect(out).toContain('is sound');
});

test('[A4] a name its maker’s grammar cannot read is a fault, at checking and at loading', async () => {
  const pack = path.join(scratch, 'misnamed');
  cpSync(smallPack, pack, { recursive: true });
  const file = path.join(pack, 'models.json');
  writeFileSync(file, readFileSync(file, 'utf8').replace(/"name": "[^"]+"/, '"name": "Heron"'));
  const told = /models\.json(, row \d+, column \[0\]\.name|:\d+:13): found the name "Heron", expected a name the grammar of .+ can read/;
  expect(await kinplate('pack', 'check', pack, '--alone')).toMatchObject({ code: exitCodes.badInput, err: expect.stringMatching(told) });
  expect(await kinplate('pack', 'load', pack, '--data', path.join(scratch, 'misnamed-data'))).toMatchObject({
    code: exitCodes.badInput,
    err: expect.stringMatching(told),
  });
});

describe('[P4] a pack is checked against the atlas it would be loaded into', () => {
  const data = path.join(scratch, 'checked-data');

  test('[P4] one that is not there is said, and is no error', async () => {
    const nowhere = path.join(scratch, 'nowhere');
    const { code, out, err } = await kinplate('pack', 'check', smallPack, '--data', nowhere);
    expect(code).toBe(exitCodes.stands);
    expect(err).toBe(`There is no atlas in ${nowhere}: the pack is checked alone.`);
    expect(out).toMatch(/is sound: /);
    expect(existsSync(nowhere)).toBe(false);
  });

  test('[P4] what loading would refuse is a fault of the check, with file, line and character', async () => {
    expect(await kinplate('pack', 'load', smallPack, '--data', data)).toMatchObject({ code: exitCodes.stands });
    const again = await kinplate('pack', 'check', smallPack, '--data', data);
    expect(again).toMatchObject({ code: exitCodes.stands, err: '' });
    expect(again.out).toContain(`Held against the atlas in ${data} (one pack), which holds exactly this pack.\n`);
    const pack = path.join(scratch, 'newer');
    cpSync(smallPack, pack, { recursive: true });
    const file = path.join(pack, 'sources.json');
    writeFileSync(file, readFileSync(file, 'utf8').replace(/"title": "[^"]+"/, '"title": "Another book"'));
    const { code, out, err } = await kinplate('pack', 'check', pack, '--data', data);
    expect({ code, out }).toEqual({ code: exitCodes.badInput, out: '' });
    expect(err).toMatch(/\npack\.json:\d+:\d+: found the edition .+, which the atlas holds with other contents, expected a new edition/);
    expect(await kinplate('pack', 'check', pack, '--alone')).toMatchObject({ code: exitCodes.stands });
    const json = JSON.parse((await kinplate('pack', 'check', pack, '--data', data, '--format', 'json')).out) as unknown;
    expect(json).toMatchObject({ sound: false, into: [{ id: 'small' }], held: { same: false }, faults: [{ code: 'pack-same-edition' }] });
  });
});
