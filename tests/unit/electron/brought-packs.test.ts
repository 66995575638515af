import { cpSync, existsSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, statSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { unzipSync, zipSync } from 'fflate';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { readPack } from '../../../db/index.ts';
import { packIn } from '../../../db/packs/brought.ts';
import { canonicalText } from '../../../db/packs/canonical.ts';
import { makeOwnKey, openOwnKey } from '../../../db/signing/own-key.ts';
import { signatureText, signPack } from '../../../db/signing/signature.ts';
import { BroughtPacks, broughtFolder, sweepBrought } from '../../../electron/desk/brought-packs.ts';
import { askedForPacks } from '../../../electron/desk/open-house.ts';
import { packCalls } from '../../../electron/desk/packs.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { filledStore, noon, troubleIn, valueIn } from '../db/kit.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
let data: string;
beforeEach(() => {
  data = mkdtempSync(path.join(tmpdir(), 'kinplate-brought-'));
});
afterEach(() => rmSync(data, { recursive: true, force: true }));

const bytes = (text: string) => Buffer.from(text);
const inHome = (): string[] => (existsSync(path.join(data, broughtFolder)) ? readdirSync(path.join(data, broughtFolder)) : []);
/** Every file of a folder, by its path from it. */
const filesOf = (folder: string): [string, Buffer][] =>
  readdirSync(folder, { recursive: true, withFileTypes: true })
    .filter((entry) => entry.isFile())
    .map((entry) => path.join(entry.parentPath, entry.name))
    .map((file) => [path.relative(folder, file), readFileSync(file)]);

/** Hands these files in one by one; the token. */
const handIn = async (brought: BroughtPacks, files: readonly (readonly [string, Buffer])[]): Promise<string> => {
  let token: string | null = null;
  for (const [name, content] of files) token = valueIn(await brought.add(token, name, content)).token;
  return token ?? '';
};

describe('packs on their way in', () => {
  test('[P4] a file comes in parts, in order, and stands in a folder of this user alone until it is dropped', async () => {
    const brought = new BroughtPacks(data);
    const { token } = valueIn(await brought.add(null, 'gale/pack.json', bytes('{"id"')));
    expect(valueIn(await brought.add(token, 'gale/pack.json', bytes(':"gale"}')))).toEqual({ token, bytes: 13 });
    const { folder } = valueIn(await brought.pack(token));
    expect(readFileSync(path.join(folder, 'pack.json'), 'utf8')).toBe('{"id":"gale"}');
    for (let at = folder; at !== data; at = path.dirname(at)) expect(statSync(at).mode & 0o777, at).toBe(0o700);
    expect(statSync(path.join(folder, 'pack.json')).mode & 0o777).toBe(0o600);
    await brought.drop(token);
    expect(inHome()).toEqual([]);
    expect(troubleIn(await brought.pack(token))).toMatchObject({ code: 'not-found' });
    expect(troubleIn(await brought.add(token, 'gale/pack.json', bytes('')))).toMatchObject({ code: 'not-found' });
  });

  test.each([
    '../pack.json',
    'gale/../../pack.json',
    '/pack.json',
    'gale//pack.json',
    'C:/pack.json',
    'gale\\pack.json',
    '.',
    'a/b/c/d/e/f/pack.json',
    'ga\u0000le',
  ])('[R6] a path that leads elsewhere, or that some system could not have, is refused and nothing is written: %j', async (name) => {
    expect(troubleIn(await new BroughtPacks(data).add(null, name, bytes('x')))).toMatchObject({ code: 'pack-unreadable' });
    expect(inHome()).toEqual([]);
  });

  test('[R6] what is past the limit of bytes is refused with the limit, and nothing of it is kept', async () => {
    const brought = new BroughtPacks(data);
    const { token } = valueIn(await brought.add(null, 'a.csv', bytes('x')));
    // Of the length alone: no such buffer is made.
    const large = Object.defineProperty(bytes('x'), 'length', { value: limits.packBytes - 1 });
    expect(valueIn(await brought.add(token, 'a/b/c/d/e/b.csv', large)).bytes).toBe(limits.packBytes);
    expect(troubleIn(await brought.add(token, 'b.csv', bytes('x')))).toMatchObject({
      code: 'pack-too-large',
      sentence: expect.stringContaining('the most is 512 MiB'),
    });
    expect(inHome()).toEqual([]);
  });

  test('[P4] only the last two are held', async () => {
    const brought = new BroughtPacks(data);
    const tokens: string[] = [];
    for (let n = 0; n < 3; n += 1) tokens.push(await handIn(brought, [['gale/pack.json', bytes('{}')]]));
    expect(
      inHome()
        .map((name) => name.slice(name.indexOf('-') + 1))
        .sort(),
    ).toEqual(tokens.slice(1).sort());
  });

  test('[P4] what a program that is gone left is removed at the next start; what another is at stays', async () => {
    const home = path.join(data, broughtFolder);
    // No program has a number past the largest Linux gives (2^22).
    for (const name of ['99999999-a', `${process.pid}-b`, `${process.ppid}-c`, 'somebody-put-it'])
      mkdirSync(path.join(home, name), { recursive: true });
    await sweepBrought(data);
    expect(inHome().sort()).toEqual([`${process.ppid}-c`, 'somebody-put-it'].sort());
  });

  test('[P4] the pack is where the one pack.json is, at the top or below; none, or more than one, is said', async () => {
    expect(packIn(['pack.json', 'sheets/pack.json.txt'])).toEqual({ root: '' });
    expect(packIn(['a/b/pack.json', 'a/not-pack.json'])).toEqual({ root: 'a/b/' });
    const brought = new BroughtPacks(data);
    const none = await handIn(brought, [['gale/parts.csv', bytes('')]]);
    expect(troubleIn(await brought.pack(none)).sentence).toContain('found no pack.json');
    const two = await handIn(brought, [
      ['shop/a/pack.json', bytes('{}')],
      ['shop/b/pack.json', bytes('{}')],
    ]);
    expect(troubleIn(await brought.pack(two)).sentence).toContain('2 packs in what was chosen: one in shop/a, one in shop/b');
  });

  test('[R6] of a ZIP only the files of its pack are unpacked, and a path that leads out of it reaches nothing', async () => {
    const brought = new BroughtPacks(data);
    const zip = zipSync({
      'gale/pack.json': bytes('{}'),
      'gale/sheets/a.json': bytes('{}'),
      'gale/sheets/deeper/b.json': bytes('{}'),
      'gale/../../out.json': bytes('{}'),
      'gale/notes.txt': bytes('x'),
      'pack.txt': bytes('x'),
    });
    const token = await handIn(brought, [['gale.zip', Buffer.from(zip)]]);
    const { folder, leftAlone } = valueIn(await brought.pack(token));
    expect(
      filesOf(folder)
        .map(([name]) => name)
        .sort(),
    ).toEqual(['pack.json', 'sheets/a.json']);
    expect([...leftAlone].sort()).toEqual(['gale/../../out.json', 'gale/notes.txt', 'gale/sheets/deeper/b.json', 'pack.txt']);
    expect(troubleIn(await brought.pack(await handIn(brought, [['gale.zip', bytes('no such thing')]])))).toMatchObject({
      code: 'pack-unreadable',
      sentence: expect.stringContaining('gale.zip cannot be read as a pack'),
    });
  });
});

describe('a pack through the window', () => {
  /** The desk's calls over the small atlas, with the pack of these files handed in under a folder's name. */
  const handedIn = async (mend: (files: Map<string, string>) => void) => {
    const store = await filledStore();
    const desk = packCalls(store, path.dirname(smallPack), data);
    const files = new Map(filesOf(smallPack).map(([name, content]) => [name.split(path.sep).join('/'), content.toString()]));
    mend(files);
    let token: string | null = null;
    for (const [name, text] of files) {
      const reply = await desk['packs.handIn']({ token, path: `small/${name}`, data: bytes(text).toString('base64') });
      if (!reply.ok) throw new Error(reply.trouble.sentence);
      token = reply.value.token;
    }
    return { store, desk, token: token ?? '' };
  };
  const edit = (files: Map<string, string>, name: string, from: string, to: string): void => {
    const text = files.get(name) ?? '';
    if (!text.includes(from)) throw new Error(`no ${from} in ${name}`);
    files.set(name, text.replace(from, to));
  };

  test('[P4] faults come all at once, by file, row and column; nothing is put in, and no path of this machine is told', async () => {
    const { store, desk, token } = await handedIn((files) => {
      edit(files, 'parts.csv', 'cw-quay-13,compressor-wheel', 'cw-quay-13,propeller');
      edit(files, 'models.json', '"source": "shop-book"', '"source": "no-book"');
    });
    const before = await store.packs.list();
    const looked = await desk['packs.look']({ token, signerIsFine: false });
    expect(looked).toMatchObject({ ok: true, value: { sound: false, count: expect.any(Number) } });
    expect(JSON.stringify(looked)).not.toContain(data);
    if (!looked.ok || looked.value.sound) throw new Error('it is sound');
    expect(looked.value.faults.map(({ file }) => file)).toEqual(expect.arrayContaining(['models.json', 'parts.csv']));
    expect(looked.value.count).toBe(looked.value.faults.length);
    expect(looked.value.faults.find(({ file, column }) => file === 'parts.csv' && column === 'slot')).toMatchObject({
      found: '"propeller"',
    });
    const often = await handedIn((files) => {
      files.set('models.json', (files.get('models.json') ?? '').replaceAll('"source": "shop-book"', '"source": "no-book"'));
      files.set('ports.json', '[');
    });
    expect(await often.desk['packs.look']({ token: often.token, signerIsFine: false })).toMatchObject({
      value: {
        sound: false,
        count: 2,
        faults: [{ file: 'ports.json' }, { file: 'models.json', many: 5 }],
      },
    });
    expect(await desk['packs.bring']({ token, signerIsFine: false, holds: {} })).toMatchObject({
      ok: false,
      trouble: { code: 'pack-invalid' },
    });
    expect(await store.packs.list()).toEqual(before);
  });

  test('[P4] an older edition is refused in words without a path, and another of the same is told before it is put in', async () => {
    const older = await handedIn((files) => edit(files, 'pack.json', '2026-03-02', '2026-03-01'));
    const refused = await older.desk['packs.look']({ token: older.token, signerIsFine: false });
    expect(refused).toMatchObject({
      ok: true,
      value: { sound: false, count: 1, faults: [{ file: 'pack.json', column: 'edition', many: 1 }] },
    });
    expect(JSON.stringify(refused)).not.toContain(data);
    const put = await older.desk['packs.bring']({ token: older.token, signerIsFine: false, holds: {} });
    expect(put).toMatchObject({ ok: false, trouble: { code: 'pack-older', place: 'pack.json' } });
    expect(JSON.stringify(put)).not.toContain(data);
    const newer = await handedIn((files) => edit(files, 'pack.json', '2026-03-02', '2026-05-01'));
    expect(await newer.desk['packs.look']({ token: newer.token, signerIsFine: false })).toMatchObject({
      ok: true,
      value: {
        sound: true,
        pack: { id: 'small', title: 'A small atlas for the tests of the store', changed: true, replaced: '2026-03-02' },
      },
    });
    const slipped = await handedIn((files) => {
      edit(files, 'pack.json', '2026-03-02', '2026-06-01');
      edit(files, 'facts.csv', 'cw-quay-13,cw-exducer,57.1', 'cw-quay-13,cw-exducer,75.2');
    });
    expect(await slipped.desk['packs.look']({ token: slipped.token, signerIsFine: false })).toMatchObject({
      value: {
        remarks: expect.arrayContaining([expect.objectContaining({ said: expect.stringMatching(/It would be 57\.2 mm, if/) })]),
      },
    });
    expect(await newer.desk['packs.bring']({ token: newer.token, signerIsFine: false, holds: {} })).toMatchObject({
      ok: true,
      value: { edition: '2026-05-01' },
    });
    expect(
      inHome().filter((name) => name.includes(newer.token)),
      'it is removed once it is in',
    ).toEqual([]);
  });

  test('[P4] an older edition is told beside everything else that was found: what is to be decided, and what is only suspicious', async () => {
    const { store, desk, token } = await handedIn((files) => {
      edit(files, 'pack.json', '2026-03-02', '2026-03-01');
      edit(files, 'parts.csv', 'Petrel 13 compressor wheel, milled', 'Petrel 13 compressor wheel, machined');
      edit(files, 'facts.csv', 'cw-quay-13,cw-exducer,57.1', 'cw-quay-13,cw-exducer,75.2');
    });
    const part = (await store.atlas.read()).parts.find(({ name }) => name === 'Petrel 13 compressor wheel, milled');
    const { head } = valueIn(await store.changes.look([]));
    const edits = [{ list: 'parts', put: { ...part, name: 'Petrel 13 wheel' } }];
    valueIn(await store.changes.make(edits, { who: '', why: '', source: '', head }));
    const looked = await desk['packs.look']({ token, signerIsFine: false });
    if (!looked.ok || looked.value.sound) throw new Error(JSON.stringify(looked));
    const { faults, undecided, remarks, count } = looked.value;
    expect([count, faults.map(({ column }) => column)]).toEqual([1, ['edition']]);
    expect(undecided.map(({ found }) => found)).toEqual([expect.stringContaining('cw-petrel-13-c')]);
    expect(remarks.map(({ said }) => said)).toContainEqual(expect.stringMatching(/It would be 57\.2 mm, if/));
  });

  test('[H4] [P15] where the shop said otherwise is decided cell by cell before it is put in; a stranger’s signature only passes when somebody says so', async () => {
    const own = await makeOwnKey(data, 'Tern Works', null);
    const { key } = await openOwnKey(data, null);
    const { store, desk, token } = await handedIn((files) => {
      edit(files, 'pack.json', '2026-03-02', '2026-05-01');
      edit(files, 'parts.csv', 'Petrel 13 compressor wheel, milled', 'Petrel 13 compressor wheel, machined');
    });
    const part = (await store.atlas.read()).parts.find(({ name }) => name === 'Petrel 13 compressor wheel, milled');
    const { head } = valueIn(await store.changes.look([]));
    valueIn(
      await store.changes.make([{ list: 'parts', put: { ...part, name: 'Petrel 13 wheel' } }], { who: '', why: '', source: '', head }),
    );
    const whole = valueIn(await readPack(path.join(data, broughtFolder, `${process.pid}-${token}`, 'handed', 'small'), askedForPacks));
    const signature = signatureText(signPack(whole.head, canonicalText(whole), { key, name: own.name, at: noon.toISOString() }));
    const handed = await desk['packs.handIn']({ token, path: 'small/signature.json', data: bytes(signature).toString('base64') });
    expect(handed).toMatchObject({ ok: true });
    expect(await desk['packs.look']({ token, signerIsFine: false })).toMatchObject({ ok: false, trouble: { code: 'pack-signer' } });
    const looked = await desk['packs.look']({ token, signerIsFine: true });
    if (!looked.ok || !looked.value.sound) throw new Error(JSON.stringify(looked));
    const { signer, disputes } = looked.value.pack;
    expect(signer).toMatchObject({ name: 'Tern Works', standing: 'stranger' });
    expect(disputes).toMatchObject([
      { id: 'cw-petrel-13-c', field: 'name', own: 'Petrel 13 wheel', after: 'Petrel 13 compressor wheel, machined' },
    ]);
    const bring = (holds: Readonly<Record<string, 'shop' | 'pack'>>) => desk['packs.bring']({ token, signerIsFine: true, holds });
    expect(await desk['packs.held']({})).toMatchObject({ ok: true, value: { held: [{ counts: { ownWords: 1 } }] } });
    expect(await bring({})).toMatchObject({ ok: false, trouble: { code: 'pack-disputed' } });
    expect(await bring({ [disputes[0]?.cell ?? '']: 'pack' })).toMatchObject({ ok: true });
    expect((await store.atlas.read()).parts.map(({ name }) => name)).toContain('Petrel 13 compressor wheel, machined');
    const held = await desk['packs.held']({});
    expect(held).toMatchObject({
      ok: true,
      value: { held: [{ id: 'small', own: false, signer: { name: 'Tern Works' }, counts: { ownWords: 0 } }] },
    });
    const zip = unzipSync(valueIn(await store.packs.zip('small')).bytes);
    expect(Buffer.from(zip['small/signature.json'] ?? []).toString()).toBe(signature);
  });

  test('[A8] what a pack leans on and the atlas does not hold comes from the program, and where it does not, that is said', async () => {
    const packs = path.join(data, 'packs');
    cpSync(smallPack, path.join(packs, 'words'), { recursive: true });
    const head = { ...JSON.parse(readFileSync(path.join(smallPack, 'pack.json'), 'utf8')), id: 'words' };
    writeFileSync(path.join(packs, 'words', 'pack.json'), JSON.stringify(head));
    const store = await filledStore();
    valueIn(await store.packs.remove('small'));
    const bring = async (shipped: string, leansOn: string) => {
      const desk = packCalls(store, shipped, data);
      const files = {
        'pack.json': JSON.stringify({ ...head, id: 'gale', title: 'Gale', leansOn: [leansOn] }),
        ...Object.fromEntries(
          ['sources', 'stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'generations', 'models'].map((name) => [
            `${name}.json`,
            '[]',
          ]),
        ),
        // Said alike by both, so that neither needs the other for it.
        'sources.json': readFileSync(path.join(smallPack, 'sources.json'), 'utf8'),
        'parts.csv': 'id,slot,name,maker,numbers,pattern_of,supersedes,source\ngale-wheel,compressor-wheel,Gale wheel,,,,,shop-book\n',
        'facts.csv': 'part,feature,value,lower,upper,code,source\n',
        'allowed.csv': 'model,slot,part,role\n',
      };
      let token: string | null = null;
      for (const [name, text] of Object.entries(files)) {
        const reply = await desk['packs.handIn']({ token, path: `gale/${name}`, data: bytes(text).toString('base64') });
        if (!reply.ok) throw new Error(reply.trouble.sentence);
        token = reply.value.token;
      }
      return { desk, token: token ?? '' };
    };
    const lost = await bring(packs, 'elsewhere');
    expect(await lost.desk['packs.look']({ token: lost.token, signerIsFine: false })).toMatchObject({
      value: {
        sound: false,
        faults: [
          { file: 'pack.json', found: '"elsewhere"', said: 'the id of a pack the atlas holds, or of one that comes with the program' },
        ],
      },
    });
    const found = await bring(packs, 'words');
    expect(await found.desk['packs.look']({ token: found.token, signerIsFine: false })).toMatchObject({
      value: { sound: true, pack: { id: 'gale', with: [{ id: 'words' }] } },
    });
    expect(await found.desk['packs.bring']({ token: found.token, signerIsFine: false, holds: {} })).toMatchObject({ ok: true });
    const held = await found.desk['packs.held']({});
    if (!held.ok) throw new Error(held.trouble.sentence);
    expect(held.value.held.map(({ id, leansOn }) => [id, leansOn])).toEqual([
      ['gale', ['words']],
      ['words', []],
    ]);
    expect(held.value.held[1]?.neededBy).toEqual([
      {
        pack: 'gale',
        title: 'Gale',
        leans: true,
        places: [{ from: 'part', to: 'slot', many: 1, names: ['Gale wheel'] }],
      },
    ]);
    expect(await found.desk['packs.takeOut']({ id: 'words', madeAgainst: held.value.held[1]?.version as never })).toMatchObject({
      ok: false,
      trouble: { code: 'pack-needed' },
    });
  });
});
