import { cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { afterAll, beforeAll, describe, expect, test } from 'vitest';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-sign-'));
afterAll(() => rmSync(scratch, { recursive: true, force: true }));
const at = (...names: readonly string[]) => path.join(scratch, ...names);
const kinplate = (args: readonly string[], input = '') => kinplateRun(args, { shipped: scratch, input: () => input });
const packCalled = (name: string): string => {
  cpSync(smallPack, at(name), { recursive: true });
  return at(name);
};

/** Two shops: one signs, one loads. */
const [theirs, ours] = [at('theirs'), at('ours')];
let pack: string;
let card: string;
let fingerprint: string;
beforeAll(async () => {
  const made = await kinplate(
    ['signer', 'make', '--name', 'Tern Works', '--who', 'Ines', '--passphrase', '-', '--data', theirs],
    'weir and sluice\nmore',
  );
  expect(made).toMatchObject({ code: exitCodes.stands, err: '' });
  fingerprint = /^fingerprint: (\S+)$/m.exec(made.out)?.[1] as string;
  card = at('tern.txt');
  writeFileSync(card, made.out);
  pack = packCalled('signed');
  const phrase = at('phrase');
  writeFileSync(phrase, 'weir and sluice\n');
  const signed = await kinplate(['pack', 'sign', pack, '--data', theirs, '--passphrase', phrase]);
  expect(signed).toMatchObject({ code: exitCodes.stands, out: `Signed small, edition 2026-03-02, as Tern Works (${fingerprint}).\n` });
});

describe('the key a shop signs with', () => {
  test('[P15] is made once, shown as it is handed on, and trusted by its shop', async () => {
    const again = await kinplate(['signer', 'make', '--name', 'Tern', '--data', theirs]);
    expect(again).toMatchObject({ code: exitCodes.cannotWrite, out: '', err: expect.stringContaining('left as it is') });
    expect((await kinplate(['signer', 'show', '--data', theirs])).out).toBe(readFileSync(card, 'utf8'));
    const shown = JSON.parse((await kinplate(['signer', 'show', '--data', theirs, '--format', 'json'])).out);
    expect(shown).toEqual({ name: 'Tern Works', key: expect.any(String), fingerprint, text: readFileSync(card, 'utf8') });
    expect((await kinplate(['trust', '--data', theirs])).out).toMatch(
      new RegExp(`^${fingerprint}\\tTern Works\\ttrusted since \\d{4}-\\d\\d-\\d\\dT[\\d:.]+Z by Ines\\n$`),
    );
    if (process.platform !== 'win32') expect(statSync(path.join(theirs, 'signing-key.pem')).mode & 0o777).toBe(0o600);
  });

  test('[P15] does not sign with another passphrase or with none, and where there is none nothing is signed', async () => {
    const other = packCalled('unsigned');
    for (const [args, input, why] of [
      [['--data', theirs], '', /none was given/],
      [['--data', theirs, '--passphrase', '-'], 'weir\n', /does not open with this passphrase/],
      [['--data', theirs, '--passphrase', '-'], '\n', /is empty/],
      [['--data', theirs, '--passphrase', at('nowhere')], '', /cannot be read/],
    ] as const) {
      const { code, out, err } = await kinplate(['pack', 'sign', other, ...args], input);
      expect([code, out]).toEqual([exitCodes.noInput, '']);
      expect(err).toMatch(why);
    }
    expect(await kinplate(['signer', 'show', '--data', ours])).toMatchObject({ code: exitCodes.noInput, out: '' });
    expect(await kinplate(['signer', 'make', '--data', ours])).toMatchObject({ code: exitCodes.usage });
    expect(readdirSync(other).sort()).toEqual(readdirSync(smallPack).sort());
    const faulty = packCalled('faulty');
    writeFileSync(path.join(faulty, 'parts.csv'), 'id\n');
    const refused = await kinplate(['pack', 'sign', faulty, '--data', theirs, '--passphrase', '-'], 'weir and sluice');
    expect(refused).toMatchObject({ code: exitCodes.badInput, out: '' });
    expect(readdirSync(faulty)).not.toContain('signature.json');
  });
});

describe('a signed pack', () => {
  test('[P15] of a stranger is told and refused, loaded where that is fine; once he is trusted without asking; withdrawn, no more', async () => {
    const load = (...more: readonly string[]) => kinplate(['pack', 'load', pack, '--data', ours, ...more]);
    expect(await load()).toMatchObject({
      code: exitCodes.badInput,
      out: '',
      err: expect.stringContaining(`calls himself Tern Works (${fingerprint})`),
    });
    expect((await kinplate(['packs', '--data', ours])).out).toBe('');
    const added = await kinplate(['trust', 'add', card, '--who', 'Osk', '--data', ours, '--format', 'json']);
    expect(JSON.parse(added.out)).toMatchObject({ name: 'Tern Works', fingerprint, who: 'Osk', withdrawn: null });
    expect(await load()).toMatchObject({
      code: exitCodes.stands,
      err: expect.stringContaining(`small is signed by Tern Works (${fingerprint}), `),
    });
    expect(JSON.parse((await kinplate(['packs', '--data', ours, '--format', 'json'])).out)).toMatchObject([
      { id: 'small', signer: { fingerprint } },
    ]);
    const gone = await kinplate(['trust', 'withdraw', fingerprint.toLowerCase(), '--who', 'Wenna', '--data', ours]);
    expect(gone).toMatchObject({ code: exitCodes.stands, out: expect.stringMatching(/\twithdrawn \S+Z by Wenna\n$/) });
    expect(await kinplate(['pack', 'verify', pack, '--data', ours])).toMatchObject({ code: exitCodes.ruledOut });
    expect((await kinplate(['trust', 'withdraw', 'nobody', '--data', ours])).code).toBe(exitCodes.noInput);
    const another = at('another');
    expect(await kinplate(['pack', 'load', pack, '--data', another, '--stranger-is-fine'])).toMatchObject({
      code: exitCodes.stands,
      err: expect.stringContaining('whom the keyring does not hold'),
    });
    const later = packCalled('later');
    const head = readFileSync(path.join(later, 'pack.json'), 'utf8').replace('2026-03-02', '2026-03-03');
    writeFileSync(path.join(later, 'pack.json'), head);
    const followed = (...more: readonly string[]) => kinplate(['pack', 'load', later, '--data', another, ...more]);
    expect(await followed()).toMatchObject({
      code: exitCodes.badInput,
      err: expect.stringContaining('is not signed, and the edition the atlas holds'),
    });
    expect(await followed('--other-signer-is-fine')).toMatchObject({
      code: exitCodes.stands,
      err: expect.stringContaining('small is not signed'),
    });
  });

  test('[P15] verified it says whose it is, with or without an atlas, and what in its folder that does not cover', async () => {
    const verify = (folder: string, data: string) => kinplate(['pack', 'verify', folder, '--data', data]);
    expect(await verify(pack, theirs)).toMatchObject({ code: exitCodes.stands, out: expect.stringContaining('whom the keyring holds') });
    const folder = packCalled('verified');
    const nowhere = at('no-atlas');
    mkdirSync(nowhere);
    expect(await verify(folder, nowhere)).toMatchObject({ code: exitCodes.open, out: expect.stringContaining('small is not signed') });
    cpSync(path.join(pack, 'signature.json'), path.join(folder, 'signature.json'));
    writeFileSync(path.join(folder, 'letter.txt'), 'x');
    writeFileSync(path.join(folder, 'models.json'), `${readFileSync(path.join(folder, 'models.json'), 'utf8')}\n`);
    const { code, out } = await kinplate(['pack', 'verify', folder, '--data', nowhere, '--format', 'json']);
    expect(code).toBe(exitCodes.open);
    expect(JSON.parse(out)).toMatchObject({
      ...{ pack: 'small', edition: '2026-03-02', licence: null, by: null, hash: expect.stringMatching(/^[0-9a-f]{64}$/) },
      signer: { name: 'Tern Works', fingerprint, standing: 'stranger' },
      otherwise: ['models.json'],
      notCovered: ['letter.txt'],
    });
    expect(readdirSync(nowhere)).toEqual([]);
    writeFileSync(path.join(folder, 'facts.csv'), readFileSync(path.join(folder, 'facts.csv'), 'utf8').replace(/\n[^\n]+\n$/, '\n'));
    const refused = {
      code: exitCodes.badInput,
      out: '',
      err: expect.stringMatching(/facts\.csv does not say what it said when it was signed/),
    };
    expect(await verify(folder, theirs)).toMatchObject(refused);
    // So it is read for no question either.
    expect(await kinplate(['sheets', '--pack', folder])).toMatchObject(refused);
    expect((await kinplate(['sheets', '--pack', pack])).code).toBe(exitCodes.stands);
  });
});
