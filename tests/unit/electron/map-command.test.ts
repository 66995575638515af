import { mkdtempSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { smallPack } from '../db/packs.ts';
import { wharfPack, writeWharf } from '../db/wharf-pack.ts';
import { kinplateRun } from './kinplate-run.ts';

const scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-map-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
const at = (name: string) => path.join(scratch, name);
const kinplate = (args: readonly string[], input = '') => kinplateRun(args, { shipped: scratch, input: () => input });

test('[P16] [L1] a script has the words of a pack proposed, corrects them, checks and loads the pack by them; what cannot be is told by file and line', async () => {
  const folder = writeWharf(at('wharf'), wharfPack());
  const data = ['--data', at('data')];
  expect(await kinplate(['pack', 'load', smallPack, ...data])).toMatchObject({ code: exitCodes.stands });
  const proposed = await kinplate(['pack', 'map', folder, ...data]);
  expect(proposed).toMatchObject({ code: exitCodes.stands, err: '' });
  expect(JSON.parse(proposed.out)).toMatchObject({ format: 'kinplate mapping', version: 1, pack: 'wharf' });
  const wrong = at('wrong.json');
  writeFileSync(wrong, proposed.out.replace('"to": "cw-exducer"', '"to": "cw-blades"'));
  const row =
    readFileSync(path.join(folder, 'features.json'), 'utf8')
      .split('\n')
      .findIndex((line) => line.includes('"imp-od"')) + 1;
  for (const command of ['check', 'load']) {
    const refused = await kinplate(['pack', command, folder, '--map', wrong, ...data]);
    expect(refused.code).toBe(exitCodes.badInput);
    expect(refused.err).toMatch(
      new RegExp(
        `features\\.json(:${row + 3}:\\d+|, row ${row + 3}, column \\[0\\]\\.kind): found measure, of "imp-od", which is mapped onto "cw-blades", expected count, as “cw-blades” has it`,
      ),
    );
  }
  const unread = await kinplate(['pack', 'load', folder, '--map', '-', ...data], proposed.out.replace('"list": "slots"', '"list": "slot"'));
  expect(unread).toMatchObject({
    code: exitCodes.badInput,
    err: expect.stringMatching(
      /^The mapping has a fault, so nothing was done with it\. standard input, row \d+, column words\[2\]\.list: found "slot", expected "sources" or/,
    ),
  });
  expect(await kinplate(['pack', 'load', folder, '--map', at('nowhere'), ...data])).toMatchObject({
    code: exitCodes.noInput,
    err: expect.stringContaining('cannot be read'),
  });

  expect(await kinplate(['pack', 'check', folder, '--map', '-', ...data], proposed.out)).toMatchObject({ code: exitCodes.stands });
  const loaded = await kinplate(['pack', 'load', folder, '--map', '-', ...data], proposed.out);
  expect(loaded).toMatchObject({
    code: exitCodes.stands,
    out: expect.stringContaining('Loaded wharf, edition 2026-02-01: 1 model, 2 parts, 3 facts, 1 sheet.'),
  });
  expect(loaded.err).toContain('wharf is held as mapped: 8 of its words stand under ids of this atlas.');
  expect(await kinplate(['pack', 'load', folder, ...data])).toMatchObject({
    code: exitCodes.stands,
    out: expect.stringContaining('exactly as it is here'),
  });
  expect(
    JSON.parse((await kinplate(['pack', 'map', folder, ...data])).out).words.every(({ said }: { said: string }) => said === 'kept'),
  ).toBe(true);
});
