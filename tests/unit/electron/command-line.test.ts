import { copyFileSync, cpSync, mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import path from 'node:path';
import { strFromU8, strToU8, unzipSync, zipSync } from 'fflate';
import sqlite3 from 'sqlite3';
import { afterEach, beforeEach, describe, expect, test } from 'vitest';
import { z } from 'zod';
import type { LearnerId } from '../../../db/index.ts';
import type { Command } from '../../../electron/command-line/command.ts';
import { commands } from '../../../electron/command-line/commands.ts';
import { exitCodes } from '../../../electron/command-line/exit-codes.ts';
import { optionInHelp } from '../../../electron/command-line/option.ts';
import { nameAnswerSchema, verdictJsonSchema, verdictSchema } from '../../../electron/command-line/verdict-schema.ts';
import { scheduled } from '../../../electron/desk/drill-schedule.ts';
import { asId, type SheetId, type TopicId } from '../../../reasoner/index.ts';
import { keepSheet } from '../db/keep-sheet.ts';
import { jpeg, png } from '../db/photos/pictures.ts';
import { begunHouse } from './begun-house.ts';
import { holding } from './holding.ts';
import { kinplateRun } from './kinplate-run.ts';

const smallPack = path.join(import.meta.dirname, '../db/fixtures/small-pack');
const sample = path.join(smallPack, 'sheets/found-01.json');
let scratch: string;
beforeEach(() => {
  scratch = mkdtempSync(path.join(tmpdir(), 'kinplate-line-'));
});
afterEach(() => rmSync(scratch, { recursive: true, force: true }));

const kinplate = (args: readonly string[], input = '') => kinplateRun(args, { shipped: path.dirname(smallPack), input: () => input });
type Change = (sheet: Record<string, unknown> & { observations: Record<string, unknown>[] }) => void;
/** A sheet file like the small pack's sample, but for what `change` does to it. */
const sheetLike = (change: Change): string => {
  const sheet = JSON.parse(readFileSync(sample, 'utf8'));
  change(sheet);
  const file = path.join(scratch, 'sheet.json');
  writeFileSync(file, JSON.stringify(sheet, null, 2));
  return file;
};
const verdict = (sheet: string, ...more: string[]) => kinplate(['verdict', '--pack', smallPack, '--sheet', sheet, ...more]);

describe('the verdict', () => {
  test('[N1] a claim that is ruled out is printed with its reasons, and the exit code says so', async () => {
    const { code, out } = await verdict(sample);
    expect(code).toBe(exitCodes.ruledOut);
    expect(out).toContain('Claimed: “Petrel 13 Cartridge”: ruled out');
    expect(out).toMatch(/Why not .*:\n {2}1\. /);
    expect(out).toContain('How it may be described:');
    expect(out).toContain('How it must not be described:');
    expect(out).toContain('Cautions:');
  });

  test('[N2] a claim that is open has its own exit code', async () => {
    const sheet = sheetLike((one) => {
      one.observations = [];
      one.absent = [];
    });
    expect((await verdict(sheet)).code).toBe(exitCodes.open);
  });

  test('[N3] without a claim the verdict is the answer, and the exit code 0', async () => {
    const { code, out } = await verdict(
      sheetLike((one) => {
        one.claimed = null;
        one.claimedMaker = null;
      }),
    );
    expect(code).toBe(exitCodes.stands);
    expect(out).toContain('Honest name: ');
    expect(out).not.toContain('Claimed:');
  });

  test('[O6] contradictory observations have their own exit code, and nothing is judged', async () => {
    const sheet = sheetLike((one) => one.observations.push({ ...one.observations[0], id: 'o9', value: { kind: 'count', from: 5, to: 5 } }));
    const { code, out } = await verdict(sheet);
    expect(code).toBe(exitCodes.contradiction);
    expect(out).toContain('o1, o9');
    expect(out).not.toContain('Honest name');
  });

  test('[W1] text and JSON are made of one answer: every sentence of the text stands in the JSON', async () => {
    const { out: text } = await verdict(sample);
    const answer = verdictSchema.parse(JSON.parse((await verdict(sample, '--format', 'json')).out));
    if (answer.kind !== 'verdict') throw new Error('no verdict');
    for (const clause of [...answer.ticket.may, ...answer.ticket.mustNot]) expect(text).toContain(`  - ${clause.text}\n`);
    for (const caution of answer.cautions) expect(text).toContain(caution);
    for (const sentence of answer.claim?.sentences ?? []) expect(text).toContain(sentence);
  });

  test('[K1] one name is explained by its id or by its text, whatever its case', async () => {
    const data = await holding(smallPack);
    const verdict = (...more: string[]) => kinplate(['verdict', '--data', data, '--sheet', sample, ...more]);
    const answer = verdictSchema.parse(JSON.parse((await verdict('--format', 'json')).out));
    if (answer.kind !== 'verdict') throw new Error('no verdict');
    for (const { name, status } of answer.names) {
      const byId = await verdict('--name', name.id, '--format', 'json');
      expect(nameAnswerSchema.parse(JSON.parse(byId.out)).name).toEqual(name);
      expect(byId.code).toBe({ stands: 0, 'ruled out': 1, open: 2 }[status]);
      const byText = await verdict('--name', name.text.toUpperCase());
      expect(byText.out).toContain(name.text);
      expect([0, 1, 2]).toContain(byText.code);
    }
  });

  test('[N6] a name nobody judged is said to be none, with what is near it', async () => {
    const { code, err, out } = await verdict(sample, '--name', 'petrel');
    expect(code).toBe(exitCodes.badInput);
    expect(err).toMatch(/No name judged for this sheet is “petrel”\. Near it: “.*Petrel/);
    expect(out).toBe('');
  });

  test('[R2] a sheet is read from standard input with --sheet -', async () => {
    const given = await kinplate(['verdict', '--pack', smallPack, '--sheet', '-', '--format', 'json'], readFileSync(sample, 'utf8'));
    expect(given).toEqual(await verdict(sample, '--format', 'json'));
  });

  test('[R2] the same question gets the same bytes', async () => {
    expect((await verdict(sample, '--format', 'json')).out).toBe((await verdict(sample, '--format', 'json')).out);
  });
});

describe('the published schema', () => {
  const published = z.fromJSONSchema(JSON.parse(JSON.stringify(verdictJsonSchema())));

  test('[T1] kinplate schema prints it, and it is JSON Schema 2020-12', async () => {
    const { out, code } = await kinplate(['schema']);
    expect(code).toBe(0);
    expect(JSON.parse(out)).toEqual(JSON.parse(JSON.stringify(verdictJsonSchema())));
    expect(JSON.parse(out).$schema).toBe('https://json-schema.org/draft/2020-12/schema');
  });

  test('[T1] what is printed as JSON meets it: a verdict, a contradiction, a name', async () => {
    const contradictory = sheetLike((one) =>
      one.observations.push({ ...one.observations[0], id: 'o9', value: { kind: 'count', from: 5, to: 5 } }),
    );
    for (const args of [[sample], [contradictory], [sample, '--name', 'model:petrel-13']] as const) {
      const [sheet, ...more] = args;
      const { out } = await verdict(sheet, '--format', 'json', ...more);
      expect(published.safeParse(JSON.parse(out)).error).toBeUndefined();
    }
  });

  test('[T1] a verdict with a field too many or too few does not meet it', async () => {
    const answer = JSON.parse((await verdict(sample, '--format', 'json')).out);
    expect(published.safeParse({ ...answer, likely: true }).success).toBe(false);
    const { honest: _honest, ...without } = answer;
    expect(published.safeParse(without).success).toBe(false);
    expect(published.safeParse({ ...answer, claim: { ...answer.claim, status: 'probably' } }).success).toBe(false);
  });
});

describe('sheets with faults', () => {
  test.each<[string, Change, RegExp]>([
    [
      'a feature the atlas does not have',
      (one) => Object.assign(one.observations[0] ?? {}, { feature: 'propeller-pitch' }),
      /feature.*propeller-pitch/,
    ],
    ['a slot the atlas does not have', (one) => Object.assign(one.observations[0] ?? {}, { slot: 'propeller' }), /slot.*propeller/],
    ['a field that is misspelt', (one) => Object.assign(one, { titel: 'x' }), /titel/],
    [
      'a measure without its uncertainty',
      (one) => Object.assign(one.observations[1] ?? {}, { sure: { kind: 'measured' } }),
      /observations.*sure/,
    ],
  ])('[T1] %s is refused with its place, and nothing is judged', async (_what, change, said) => {
    const { code, out, err } = await verdict(sheetLike(change));
    expect(code).toBe(exitCodes.badInput);
    expect(err).toMatch(said);
    expect(err).toContain('sheet.json');
    expect(out).toBe('');
  });

  test('[T1] a sheet that is no JSON, and one that is not there', async () => {
    const torn = path.join(scratch, 'torn.json');
    writeFileSync(torn, '{ "id": "x",');
    expect(await verdict(torn)).toMatchObject({ code: exitCodes.noInput, out: '' });
    expect(await verdict(path.join(scratch, 'none.json'))).toMatchObject({ code: exitCodes.noInput, out: '' });
  });
});

describe('packs', () => {
  test('[P4] a sound pack is said to be sound, invented figures and all', async () => {
    const { code, out } = await kinplate(['pack', 'check', smallPack, '--alone']);
    expect(code).toBe(0);
    expect(out).toContain('5 models');
    expect(out).toContain('invented');
  });

  test('[P4] every fault of a pack is listed with file, row and column', async () => {
    const pack = path.join(scratch, 'pack');
    cpSync(smallPack, pack, { recursive: true });
    const file = path.join(pack, 'parts.csv');
    writeFileSync(
      file,
      readFileSync(file, 'utf8').replace('bh-quay,bearing-housing', 'bh-quay,propeller').replace('np-tern,nameplate', 'np-tern,plate'),
    );
    const { code, err } = await kinplate(['pack', 'check', pack, '--alone']);
    expect(code).toBe(exitCodes.badInput);
    expect(err).toContain('propeller');
    expect(err).toContain('plate');
    expect(err).toMatch(/parts\.csv.*\d/);
    expect(await kinplate(['verdict', '--pack', pack, '--sheet', sample])).toMatchObject({ code: exitCodes.badInput, out: '' });
  });

  test('[P4] a pack is loaded into a data folder, again without a change, and exported as it was', async () => {
    const data = path.join(scratch, 'data');
    expect(await kinplate(['pack', 'load', smallPack, '--data', data])).toMatchObject({
      code: 0,
      out: expect.stringContaining('Loaded small'),
    });
    expect((await kinplate(['pack', 'load', smallPack, '--data', data])).out).toContain('Nothing was changed');
    expect((await kinplate(['packs', '--data', data])).out).toContain('small\t2026-03-02');
    const exported = path.join(scratch, 'exported');
    expect((await kinplate(['pack', 'export', 'small', exported, '--data', data])).code).toBe(0);
    for (const file of readdirSync(smallPack, { recursive: true, withFileTypes: true }).filter((entry) => entry.isFile())) {
      const name = path.relative(smallPack, path.join(file.parentPath, file.name));
      expect(readFileSync(path.join(exported, name), 'utf8'), name).toBe(readFileSync(path.join(smallPack, name), 'utf8'));
    }
    expect((await kinplate(['pack', 'export', 'heron', path.join(scratch, 'more'), '--data', data])).code).toBe(exitCodes.noInput);
    expect((await kinplate(['pack', 'export', 'small', exported, '--data', data])).code).toBe(exitCodes.cannotWrite);
  });

  test('[P4] the atlas of a data folder answers as its pack does', async () => {
    const data = path.join(scratch, 'data');
    await kinplate(['pack', 'load', smallPack, '--data', data]);
    const fromData = await kinplate(['verdict', '--data', data, '--sheet', sample, '--format', 'json']);
    expect(fromData).toEqual(await verdict(sample, '--format', 'json'));
    expect(await kinplate(['verdict', '--data', data, '--saved', 'found-01', '--format', 'json'])).toEqual(fromData);
  });
});

describe('the shelf', () => {
  test('[P4] sheets are listed and printed as sheet files', async () => {
    expect((await kinplate(['sheets', '--pack', smallPack])).out).toMatch(/found-01\tfound\tsample\t3 observations\tPetrel 13 Cartridge\t/);
    expect(JSON.parse((await kinplate(['sheets', '--pack', smallPack, '--format', 'json'])).out)).toHaveLength(2);
    expect((await kinplate(['sheet', 'found-01', '--pack', smallPack])).out).toBe(readFileSync(sample, 'utf8'));
    expect((await kinplate(['sheet', 'none', '--pack', smallPack])).code).toBe(exitCodes.noInput);
  });
});

describe('the atlas of a data folder', () => {
  test('[R4] asking where there is no atlas makes none', async () => {
    const data = path.join(scratch, 'data');
    mkdirSync(data);
    for (const args of [['sheets'], ['packs'], ['verdict', '--saved', 'found-01'], ['pack', 'export', 'small', path.join(scratch, 'x')]])
      expect((await kinplate([...args, '--data', data])).code).toBe(exitCodes.noInput);
    expect(readdirSync(data)).toEqual([]);
  });

  test('[R4] a damaged atlas is said to be damaged and left alone', async () => {
    const data = path.join(scratch, 'data');
    await kinplate(['pack', 'load', smallPack, '--data', data]);
    const file = path.join(data, 'atlas.sqlite');
    const bytes = readFileSync(file).fill(0x5a, 0, 4096);
    writeFileSync(file, bytes);
    for (const args of [['sheets'], ['pack', 'load', smallPack]])
      expect((await kinplate([...args, '--data', data])).code).toBe(exitCodes.badAtlas);
    expect(readFileSync(file).equals(bytes)).toBe(true);
  });
});

describe('mending', () => {
  const makeData = async (): Promise<string> => {
    const data = path.join(scratch, 'data');
    const house = await begunHouse(data, path.dirname(smallPack));
    if (!house.ok) throw new Error(house.trouble.sentence);
    const sample = JSON.parse((await kinplate(['sheet', 'found-01', '--pack', smallPack])).out);
    for (let number = 1; number <= 40; number += 1) {
      const saved = await keepSheet(house.value.store, {
        ...sample,
        id: `own-${String(number).padStart(2, '0')}`,
        story: 'x'.repeat(4000),
      });
      if (!saved.ok) throw new Error(saved.trouble.sentence);
    }
    const { store } = house.value;
    await store.sheets.remove(asId('own-40'));
    await store.cases.describe(asId('own-39'), { customer: 'Pilot station', lookedBy: 'Osk', notes: '' });
    const photo = await store.photos.add(asId('own-39'), { name: 'a.jpg', bytes: jpeg, thumbnail: png, caption: 'nose', about: null });
    if (!photo.ok) throw new Error(photo.trouble.sentence);
    const learner = asId<LearnerId>('wenna');
    await store.learning.saveLearner({ id: learner, name: 'Wenna', course: null });
    const answer = { topic: asId<TopicId>('name:petrel'), seed: 1, edition: 'small', response: ['a'], right: true, confused: null };
    const kept = await store.learning.keepAnswer(learner, answer, (card, at) => scheduled(card, true, at));
    if (!kept.ok) throw new Error(kept.trouble.sentence);
    await house.value.close();
    return data;
  };

  test('[P3] a sound atlas is left as it is', async () => {
    const data = await makeData();
    const before = readFileSync(path.join(data, 'atlas.sqlite'));
    expect((await kinplate(['mend', '--data', data])).out).toContain('Nothing was changed');
    expect(readFileSync(path.join(data, 'atlas.sqlite')).equals(before)).toBe(true);
  });

  test('[P3] a damaged atlas is set aside whole, and every sheet that can be read is on the shelf again and in a file', async () => {
    const data = await makeData();
    const file = path.join(data, 'atlas.sqlite');
    // One leaf page of the sheets is torn out (SQLite's file format: page types 10 and 13): the rest of them can still be read.
    const bytes = readFileSync(file);
    const pages = [...bytes.toString('latin1').matchAll(/"id":\s*"own-[12]\d"/g)].map(({ index }) => index - (index % 4096));
    const leaf = pages.find((page) => [10, 13].includes(bytes[page] ?? 0)) ?? Number.NaN;
    bytes.fill(0, leaf, leaf + 4096);
    writeFileSync(file, bytes);
    expect((await kinplate(['sheets', '--data', data])).code).toBe(exitCodes.badAtlas);

    const { code, out } = await kinplate(['mend', '--data', data]);
    expect(code).toBe(0);
    const aside = readdirSync(data).find((name) => name.includes('damaged-2026-03-04'));
    expect(readFileSync(path.join(data, aside ?? '')).equals(bytes)).toBe(true);
    const shelf = JSON.parse((await kinplate(['sheets', '--data', data, '--format', 'json'])).out) as { origin: string }[];
    const own = shelf.filter(({ origin }) => origin === 'own').length;
    expect(own, 'a sheet whose row is gone is as its case last had it').toBe(39);
    expect(out).toContain('Taken from the history of their cases: sheet own-');
    const numbers = JSON.parse((await kinplate(['cases', '--data', data, '--format', 'json'])).out) as { sheet: string; number: string }[];
    expect(numbers).toHaveLength(own);
    for (const { sheet, number } of numbers) expect(number.endsWith(`-00${sheet.slice(-2)}`), 'each has the number it had').toBe(true);
    const described = await kinplate(['case', numbers.find(({ sheet }) => sheet === 'own-39')?.number ?? '', '--data', data]);
    expect(described.out).toContain('Customer: Pilot station');
    expect(described.out).toContain('nose, 16 × 12');
    const house = await begunHouse(data, path.dirname(smallPack));
    if (!house.ok) throw new Error(house.trouble.sentence);
    const sound = await house.value.store.sheets.open(asId('own-39'));
    if (!sound.ok) throw new Error(sound.trouble.sentence);
    await keepSheet(house.value.store, { ...sound.value, id: asId('new') });
    const learnt = await house.value.store.learning.record(asId<LearnerId>('wenna'));
    expect(learnt).toMatchObject({ value: { learner: { name: 'Wenna' }, answers: [{ topic: 'name:petrel', right: true }] } });
    expect(out).toContain('Learning: 1 learner, 0 courses, 1 answer, and when 1 topic is due again.');
    const fresh = await house.value.store.cases.open(asId('new'), null);
    await house.value.close();
    expect(fresh, 'no number is given twice, not even that of a case removed before').toMatchObject({
      value: { number: expect.stringMatching(/-0041$/) },
    });
    expect(out).toContain(`on the shelf again: ${own}`);
    expect(out).toContain('it does not say what stood there: sheets may be missing');
    expect(readdirSync(path.join(data, 'recovered-2026-03-04T12-00-00-000Z'))).toHaveLength(own);
  });

  test('[P3] what came from a backup is said with its age, what is lost by name; as JSON all of it', async () => {
    const data = await makeData();
    const file = path.join(data, 'atlas.sqlite');
    mkdirSync(path.join(data, 'backups'), { recursive: true });
    copyFileSync(file, path.join(data, 'backups', '2026-03-02T10-00-00-000Z-asked.sqlite'));
    const bytes = readFileSync(file);
    for (let page = 1; page < bytes.length / 4096; page += 1) {
      const part = bytes.subarray(page * 4096, (page + 1) * 4096);
      if (part.includes('own-12') || (part.includes('nose') && part[0] === 10)) part.fill(0);
    }
    writeFileSync(file, bytes);
    const copy = path.join(scratch, 'copy');
    cpSync(data, copy, { recursive: true });
    const { code, out } = await kinplate(['mend', '--data', data]);
    expect(code).toBe(0);
    expect(out).toContain('2 days old; what was changed or removed since then may be as it was: ');
    expect(out).toMatch(/Own sheets on the shelf again: 39[;.]/);
    rmSync(path.join(copy, 'backups'), { recursive: true });
    const told = JSON.parse((await kinplate(['mend', '--data', copy, '--format', 'json'])).out);
    expect(told.state).toBe('mended');
    // Every page that named it is gone: nothing says that there was such a sheet, only that there may have been more.
    expect(told.back.sheets).toBeLessThan(39);
    expect(told.incomplete).toContain('sheets');
    expect((await kinplate(['mend', '--data', copy, '--format', 'json'])).out).toContain('"state": "sound"');
  });

  test('[P3] an atlas of a newer version is not a damaged one and is not touched', async () => {
    const data = await makeData();
    const file = path.join(data, 'atlas.sqlite');
    await new Promise<void>((resolve, reject) => {
      const database = new sqlite3.Database(file);
      database.exec("insert into migrations (number, name, hash) values (9000, 'of the future', 'x')", (error) =>
        error ? reject(error) : database.close(() => resolve()),
      );
    });
    const before = readFileSync(file);
    expect(await kinplate(['mend', '--data', data])).toMatchObject({ code: exitCodes.badAtlas, out: '' });
    expect(readFileSync(file).equals(before)).toBe(true);
  });

  test('[P3] where there is no atlas there is nothing to mend, and none is made', async () => {
    expect((await kinplate(['mend', '--data', path.join(scratch, 'none')])).code).not.toBe(0);
    expect(readdirSync(scratch)).toEqual([]);
  });
});

describe('cases', () => {
  const data = () => path.join(scratch, 'shop');
  const atWork = async () => {
    const house = await begunHouse(data(), path.dirname(smallPack));
    if (!house.ok) throw new Error(house.trouble.sentence);
    const { store } = house.value;
    const found = await store.sheets.open(JSON.parse(readFileSync(sample, 'utf8')).id);
    if (!found.ok) throw new Error(found.trouble.sentence);
    await keepSheet(store, found.value, 'Marit');
    await store.cases.describe(found.value.id, { customer: '=Réka', lookedBy: 'Marit', notes: 'One\tline\nand another' });
    await keepSheet(store, { ...found.value, id: asId('later'), claimed: null, claimedMaker: null, title: 'Later' }, 'Osk');
    await house.value.close();
  };
  const year = new Date().getFullYear();

  test('[P1] are listed one a line, narrowed, and as CSV that no spreadsheet reckons out', async () => {
    await atWork();
    const { code, out } = await kinplate(['cases', '--data', data()]);
    expect(code).toBe(exitCodes.stands);
    expect(out.trimEnd().split('\n')).toHaveLength(2);
    expect((await kinplate(['cases', '--data', data(), '--looked-by', 'Osk'])).out).toContain(`A-${year}-0002`);
    expect((await kinplate(['cases', '--data', data(), '--text', 'reka'])).out).toContain(`A-${year}-0001`);
    expect((await kinplate(['cases', '--data', data(), '--status', 'open', '--from', '1999-01-01', '--to', '1999-12-31'])).out).toBe('');
    const { out: csv } = await kinplate(['cases', '--csv', '--data', data()]);
    expect(csv.startsWith('number,opened on,')).toBe(true);
    expect(csv).toContain("'=Réka");
    expect(JSON.parse((await kinplate(['cases', '--format', 'json', '--data', data()])).out)).toHaveLength(2);
  });

  test('[P1] one is printed with its verdict, reasons, cautions and history; the exit code is its claim’s', async () => {
    await atWork();
    const { code, out } = await kinplate(['case', `A-${year}-0001`, '--data', data()]);
    expect(code).toBe(exitCodes.ruledOut);
    for (const said of ['Customer: =Réka', 'Claimed: “Petrel 13 Cartridge”: ruled out', 'Why:', 'Cautions:', 'History:', 'Marit'])
      expect(out).toContain(said);
    expect((await kinplate(['case', `A-${year}-0002`, '--data', data()])).code).toBe(exitCodes.stands);
    const json = JSON.parse((await kinplate(['case', `A-${year}-0001`, '--format', 'json', '--data', data()])).out);
    expect(json.history[0].verdict.sentences.every((sentence: string) => out.includes(sentence))).toBe(true);
  });

  test('[P6] what was decided stands in the list and apart from the verdict of the one printed, with all that was said before', async () => {
    await atWork();
    const number = `A-${year}-0001`;
    const silent = await kinplate(['case', number, '--data', data()]);
    expect(silent.out).not.toContain('beside the verdict');
    const house = await begunHouse(data(), path.dirname(smallPack));
    if (!house.ok) throw new Error(house.trouble.sentence);
    const { store } = house.value;
    const sheet = asId<SheetId>(JSON.parse(readFileSync(sample, 'utf8')).id);
    const word = { by: 'shop', person: 'Ines', day: '2026-03-04', decision: 'Sold as\ta rebuilt unit.', ground: 'measured' } as const;
    await store.cases.say(sheet, word, 'Marit');
    await store.cases.say(sheet, { ...word, by: 'maker', decision: 'It is theirs.' }, 'Osk');
    await house.value.close();
    const { code, out } = await kinplate(['case', number, '--data', data()]);
    expect(code, 'the exit code is the verdict’s').toBe(silent.code);
    expect(out).toContain(
      '\n\nThe maker’s decision, as told to the shop:\n  The maker’s decision as told to the shop by Ines, decided on 4 March 2026: “It is theirs.”\n',
    );
    expect(out).toContain('Decided beside the verdict, as it was written down:');
    expect(out.match(/The shop’s own word, by Ines/g)).toHaveLength(1);
    const json = JSON.parse((await kinplate(['case', number, '--format', 'json', '--data', data()])).out);
    expect(json.words.map((one: { word: { by: string } }) => one.word.by)).toEqual(['shop', 'maker']);
    const listed = (await kinplate(['cases', '--data', data()])).out.split('\n').find((line) => line.startsWith(number));
    expect(listed?.split('\t').at(-1)).toBe('The maker’s decision, as told to the shop: It is theirs.');
    const cases = JSON.parse((await kinplate(['cases', '--format', 'json', '--data', data()])).out) as { word: unknown }[];
    expect(cases.map(({ word: held }) => held === null)).toContain(true);
  });

  test('[P9] go out as one file and come in again under another number; one that is here is not written over', async () => {
    await atWork();
    const file = path.join(scratch, 'case.zip');
    const write = (...words: string[]) => kinplate(['case', 'write', ...words, '--data', data()]);
    expect((await write(`A-${year}-0001`, file)).code).toBe(exitCodes.stands);
    const written = readFileSync(file);
    expect(unzipSync(written)['case.json']).toBeDefined();
    expect((await write(`A-${year}-0001`, file)).code).toBe(exitCodes.stands);
    expect(readFileSync(file).equals(written), 'the same case, the same bytes').toBe(true);
    expect((await write('1999-0001', file)).code).toBe(exitCodes.noInput);
    expect((await write(`A-${year}-0001`)).code).toBe(exitCodes.usage);

    const takeIn = (...words: string[]) => kinplate(['case', 'take-in', ...words, '--data', data()]);
    const here = await takeIn(file);
    expect(here.code).toBe(exitCodes.badInput);
    expect(here.err).toContain(`here: case A-${year}-0001`);
    expect(here.err).toContain(`in the file: case A-${year}-0001`);
    const beside = await takeIn(file, '--as-new', '--who', 'Jory', '--format', 'json');
    expect(beside.code).toBe(exitCodes.stands);
    expect(JSON.parse(beside.out)).toMatchObject({ number: `A-${year}-0003` });
    expect((await kinplate(['case', `A-${year}-0003`, '--data', data()])).out).toContain(`It was case A-${year}-0001 elsewhere; taken in`);
    expect(beside.err, 'of this counter’s own number nothing is said').toBe('');
    const files = unzipSync(written);
    const others = strFromU8(files['case.json'] ?? new Uint8Array()).replace(`A-${year}-0001`, `A-${year}-0099`);
    writeFileSync(file, zipSync({ ...files, 'case.json': strToU8(others) }));
    const shared = await takeIn(file, '--as-new');
    expect([shared.code, shared.out.split('\t')[0]]).toEqual([exitCodes.stands, `A-${year}-0004`]);
    expect(shared.err).toContain(`${file}: the number A-${year}-0099 in it begins with this counter’s letter, but was not given here.`);
    writeFileSync(file, written.subarray(0, 300));
    const torn = await takeIn(file);
    expect([torn.code, torn.err.includes('Nothing was taken in.')]).toEqual([exitCodes.noInput, true]);
    expect((await takeIn(path.join(scratch, 'none.zip'))).code).toBe(exitCodes.noInput);
    expect((await kinplate(['cases', '--data', data()])).out.trimEnd().split('\n')).toHaveLength(4);
  });

  test('[P7] what they would be told today is listed where it differs, as JSON too, and nothing is saved', async () => {
    await atWork();
    const retold = (...more: string[]) => kinplate(['cases', 'retold', '--data', data(), ...more]);
    const same = await retold();
    expect([same.code, same.out]).toEqual([exitCodes.stands, '']);
    const newer = path.join(scratch, 'newer');
    cpSync(smallPack, newer, { recursive: true });
    for (const [file, from, to] of [
      ['pack.json', '2026-03-02', '2026-04-01'],
      ['facts.csv', 'cw-quay-13,cw-blades,7,', 'cw-quay-13,cw-blades,9,'],
    ] as const) {
      const text = readFileSync(path.join(newer, file), 'utf8');
      expect(text).toContain(from);
      writeFileSync(path.join(newer, file), text.replace(from, to));
    }
    expect((await kinplate(['pack', 'load', newer, '--data', data()])).code).toBe(exitCodes.stands);
    const before = await kinplate(['cases', '--format', 'json', '--data', data()]);
    const { code, out } = await retold();
    expect(code).toBe(exitCodes.stands);
    expect(out).toContain(`A-${year}-0001\t`);
    expect(out).toMatch(/ {2}was told: .+\n {2}would be told: .+\n {2}- In the compressor wheel/);
    const json = JSON.parse((await retold('--format', 'json')).out);
    expect(json).toMatchObject({ edition: 'small 2026-04-01', judged: 2, left: 0, complete: true });
    expect(json.cases[0].otherwise).toMatch(/^[0-9a-f]{64}$/);
    expect((await kinplate(['cases', '--format', 'json', '--data', data()])).out).toBe(before.out);

    const house = await begunHouse(data(), path.dirname(smallPack));
    if (!house.ok) throw new Error(house.trouble.sentence);
    for (const { sheet, entry, otherwise } of json.cases.slice(0, 1))
      await house.value.store.cases.leave(sheet, { entry, otherwise, reason: 'The customer has it.', who: '' });
    await house.value.close();
    const after = JSON.parse((await retold('--format', 'json')).out);
    expect([after.cases.length, after.left]).toEqual([json.cases.length - 1, 1]);
  });

  test('[T1] a number that was never given, a day before it was opened, and a day there is not are said to be so', async () => {
    await atWork();
    expect((await kinplate(['case', '1999-0001', '--data', data()])).code).toBe(exitCodes.noInput);
    const early = await kinplate(['case', `A-${year}-0001`, '--on', '1999-12-31', '--data', data()]);
    expect([early.code, early.out]).toEqual([exitCodes.noInput, '']);
    expect(early.err).toContain('was opened later');
    expect((await kinplate(['case', `A-${year}-0001`, '--on', '2026-02-30', '--data', data()])).code).toBe(exitCodes.usage);
    expect((await kinplate(['cases', '--status', 'fallen', '--data', data()])).code).toBe(exitCodes.usage);
    expect((await kinplate(['cases', '--csv', '--format', 'json', '--data', data()])).code).toBe(exitCodes.usage);
    expect((await kinplate(['case', '--data', data()])).code).toBe(exitCodes.usage);
  });
});

describe('the command line itself', () => {
  test.each([
    [['verdict']],
    [['verdict', '--sheet', 'x', '--saved', 'y']],
    [['verdict', 'x.json']],
    [['verdict', '--sheet', 'x', '--format', 'xml']],
    [['verdict', '--sheet', 'x', '--pack', 'p', '--data', 'd']],
    [['verdict', '--shet', 'x']],
    [['verdict', '--sheet', 'x', '--pdf', 'y']],
    [['pack', 'check', 'x', '--pack', 'd']],
    [['build', 'pour', '--sheet', 'x']],
    [['mend', 'x']],
    [['pack']],
    [['pack', 'check']],
    [['pack', 'load', 'a', 'b']],
    [['pack', 'load', 'a', '--pack', 'b']],
    [['sheet']],
    [['schema', 'x']],
    [['guess']],
    [[]],
  ])('[T1] kinplate %j is no command: it says what is wrong and does nothing', async (args) => {
    const { code, out, err } = await kinplate(args);
    expect(code).toBe(exitCodes.usage);
    expect(`${out}${err}`).toMatch(/kinplate/);
  });

  const words = ({ words: taken }: Command) => Array.from({ length: taken?.least ?? 0 }, () => path.join(scratch, 'none'));
  const every = new Map(commands.flatMap(({ options }) => Object.entries(options)));
  test.each(commands)('[L1] kinplate $name refuses every option of another command, naming both, and does nothing', async (command) => {
    const own = Object.keys(command.options);
    for (const [option, { kind }] of every) {
      if (own.includes(option)) continue;
      const given = kind === 'flag' ? [`--${option}`] : [`--${option}`, path.join(scratch, 'any')];
      const { code, out, err } = await kinplate([...command.name.split(' '), ...words(command), ...given]);
      expect({ code, out }).toEqual({ code: exitCodes.usage, out: '' });
      expect(err).toContain(`${command.name} takes no --${option}`);
      for (const each of own) expect(err).toContain(`--${each}`);
    }
    expect(readdirSync(scratch)).toEqual([]);
  });

  test('[L1] an option may stand before its command; of two with one name both read it alike', async () => {
    expect((await kinplate(['--pack', smallPack, 'packs'])).out).toContain('small\t');
    for (const { options } of commands)
      for (const [option, spec] of Object.entries(options)) {
        if (spec.kind === 'among') continue;
        expect(every.get(option)?.kind, option).toBe(spec.kind);
      }
  });

  test('[L1] a word that begins several commands is answered with all of them', async () => {
    const { err } = await kinplate(['pack', 'burn', 'x']);
    expect(err).toMatch(/^There is no command “pack burn”; there are pack check, pack load, .* and pack verify\.\n/);
    for (const { name } of commands.filter((one) => one.name.startsWith('pack '))) expect(err).toContain(name);
    expect((await kinplate(['build'])).err).toMatch(/^build is no command by itself; there are build plan and build fill\.\n/);
  });

  test.each([
    [['verdict', '--shet', 'x'], 'There is no option --shet.'],
    [['verdict', '-q'], 'There is no option -q.'],
    [['verdict', '--sheet'], 'Nothing stands after --sheet; say what it is.'],
    [
      ['verdict', '--sheet', '--format', 'json'],
      '--sheet is followed by another option, where what it takes should stand. If that begins with a dash, write it as --sheet=-….',
    ],
    [['mend', '--help=x'], '--help takes nothing after it.'],
    [['verdict', '--sheet', 'x', '--format', 'xml'], '--format is text or json, not “xml”.'],
    [['mend', '--format', 'json', '--pdf', 'x'], 'mend takes no --pdf; it takes --format and --data.'],
  ])('[L1] what is wrong with kinplate %j is said in a sentence of ours', async (args, said) => {
    expect((await kinplate(args)).err).toBe(`${said}\nkinplate --help shows every command.`);
  });

  test('[R2] the help names every command, every option and every exit code', async () => {
    const { code, out } = await kinplate(['--help']);
    expect(code).toBe(0);
    for (const { name, options } of commands) {
      expect(out).toContain(`  kinplate ${name}`);
      for (const [option, spec] of Object.entries(options)) expect(out).toContain(optionInHelp(option, spec) ?? `--${option}`);
    }
    for (const exit of Object.values(exitCodes)) expect(out).toMatch(new RegExp(`\\b${exit} `));
  });

  test('[R2] the page that documents it names every command, every option and every exit code', () => {
    const page = readFileSync(path.join(import.meta.dirname, '../../../electron/command-line/README.md'), 'utf8');
    for (const { name, options } of commands) {
      expect(page).toContain(`kinplate ${name}`);
      for (const option of Object.keys(options)) expect(page).toContain(`--${option}`);
    }
    for (const exit of Object.values(exitCodes)) expect(page).toContain(`| ${exit} |`);
  });
});

describe('fits and builds', () => {
  const demoPack = path.join(import.meta.dirname, '../../../seed-data/demo-pack');
  const ask = async (...args: string[]) => kinplate([...args, '--data', await holding(demoPack)]);

  test('[F2] two parts that go together after machining: the operation, the size and its tolerance, the metal left', async () => {
    const asked = ['fit', 'tarnwick-alder-iii-compressor-housing', 'Merrowby backplate, journal core, middle'];
    const { code, out, err } = await ask(...asked);
    expect(await kinplate([...asked, '--pack', demoPack]), 'the pack alone answers as the atlas that holds it does').toEqual({
      code,
      out,
      err,
    });
    expect(code).toBe(exitCodes.afterWork);
    expect(out).toMatch(/Open the backplate recess .* to 96\.29 \+0\.054\/0 mm .* left with 4\.\d+ mm where 3\.2 must be left/);
    expect(out).toContain('Cautions:');
  });

  test('[F2] the exit code tells the verdicts apart', async () => {
    const wheel = 'merrowby-gannet-12-compressor-wheel';
    expect((await ask('fit', 'tarnwick-rowan-iv-compressor-housing', wheel)).code).toBe(exitCodes.stands);
    expect((await ask('fit', 'tarnwick-rowan-iii-compressor-housing', 'merrowby-tern-10-compressor-wheel')).code).toBe(exitCodes.ruledOut);
    expect((await ask('fit', wheel, 'merrowby-journal-set')).err).toContain('do not meet');
    expect((await ask('fit', 'no-such-part')).code).toBe(exitCodes.badInput);
  });

  test('[D4] a key to the models of some families, numbered, with how good it is; what the atlas does not have is said', async () => {
    const { code, out } = await ask('key', '--family', 'Petrel', '--family', 'northquay', '--no-letters');
    expect(code).toBe(exitCodes.stands);
    expect(out).toContain('No key by these rules is quicker: every one was tried.');
    expect(out).toMatch(/\n1\. .*, \d+ min\n/);
    for (const name of ['Merrowby Petrel 6 Cartridge', 'Northquay 13'])
      expect(out).toMatch(new RegExp(`: ${name}( \\(if the .* its own\\))?\n`));
    // The caution before anything is named, and whose own a part has to be where one that is changed in minutes was looked at.
    expect(out.split('\n')[1]).toContain('if its parts are its own');
    expect(out).toMatch(/: Merrowby Petrel \d+ Cartridge \(if the [a-z ,]*housing[a-z ,]* (is|are) its own\)\n/);
    expect(out).not.toContain('cast mark');
    const json = JSON.parse((await ask('key', '--level', 'families', '--as-far-as', 'as received', '--format', 'json')).out);
    expect(json).toMatchObject({ kind: 'key', asked: { level: 'families', scope: { stages: ['as-received'] } }, optimal: false });
    expect((await ask('key', '--family', 'heron')).code).toBe(exitCodes.noInput);
    expect((await ask('key', '--as-far-as', 'melted')).err).toContain('no strip-down stage “melted”');
    expect((await ask('key', '--level', 'makers')).code).toBe(exitCodes.usage);
  });

  test('[F2] all a part fits, one a line', async () => {
    const { code, out } = await ask('fit', 'tarnwick-alder-iii-compressor-housing');
    expect(code).toBe(exitCodes.stands);
    expect(out).toContain('compressor-housing-and-backplate\tmerrowby-journal-backplate-middle\tafter work\t1.6\n');
    expect(out).not.toContain('will not fit');
  });

  test('[F4] a build on paper as the sheet for the bench, and as JSON', async () => {
    const text = await ask('build', 'plan', '--saved', 's24-alder-on-tern', '--stock', 'tarnwick-alder-iii-compressor-housing');
    expect(text.code).toBe(exitCodes.afterWork);
    for (const heading of ['Operations', 'How it may be described', 'Before it runs']) expect(text.out).toContain(`\n${heading}\n`);
    expect(text.out).toMatch(/Alder III compressor housing, machined, .* in stock/);
    const plan = JSON.parse((await ask('build', 'plan', '--saved', 's24-alder-on-tern', '--format', 'json')).out);
    expect(plan).toMatchObject({
      kind: 'plan',
      verdict: 'after work',
      honest: ['core:tern-7/compressor-housing=alder/turbine-housing=own'],
    });
    expect((await ask('build', 'plan', '--saved', 's25-rowan-fouls-tern')).code).toBe(exitCodes.ruledOut);
  });

  test('[F4] open slots filled within constraints, or said not to exist', async () => {
    const sheet = JSON.parse(readFileSync(path.join(demoPack, 'sheets/s24-alder-on-tern.json'), 'utf8'));
    delete sheet.chosen['compressor-housing'];
    const file = path.join(scratch, 'start.json');
    writeFileSync(file, JSON.stringify(sheet));
    const tarnwick = await ask('build', 'fill', '--sheet', file, '--maker', 'tarnwick', '--at-most', '2');
    expect(tarnwick.code).toBe(exitCodes.stands);
    expect(tarnwick.out).toContain('tarnwick-alder-iii-compressor-housing');
    expect(tarnwick.out).toContain('These are all that no other beats.');
    const untouched = await ask('build', 'fill', '--sheet', file, '--maker', 'tarnwick', '--at-most', '0');
    expect(untouched.out).not.toContain('alder-iii');
    const asking = (...more: string[]) => ask('build', 'fill', '--sheet', file, ...more);
    expect((await asking('--maker', 'tarnwick', '--require', 'compressor-housing-outlet-form=groove')).code).toBe(exitCodes.ruledOut);
    expect((await asking('--require', 'compressor-housing-outlet-form=trumpet')).code).toBe(exitCodes.badInput);
    expect((await ask('build', 'fill', '--sheet', file, '--require', 'no-such-feature=1')).code).toBe(exitCodes.noInput);
    expect((await ask('build', 'fill', '--sheet', file, '--at-most', 'few')).code).toBe(exitCodes.badInput);
  });

  test('[F4] two models side by side, differences first', async () => {
    const { code, out } = await ask('compare', 'tern-7', 'tern-10');
    expect(code).toBe(exitCodes.stands);
    const signs = out
      .split('\n')
      .slice(1, -1)
      .map((line) => line.charAt(0));
    expect(signs.join('')).toMatch(/^≠+=+$/);
  });
});
