import { mkdir, readFile, rm, writeFile } from 'node:fs/promises';
import { join } from 'node:path';
import { describe, expect, test } from 'vitest';
import { readPack } from '../../../db/index.ts';
import type { Fault } from '../../../db/read/faults.ts';
import { copyOfSmallPack, expandH7, freshFolder, troubleIn, valueIn } from './kit.ts';

/** Reads the small pack after one file in it was changed; the faults found. */
const faultsAfter = async (
  file: string,
  change: (text: string) => string | Buffer,
  options: { limit?: number } = {},
): Promise<readonly Fault[]> => {
  const folder = await copyOfSmallPack();
  const before = await readFile(join(folder, file), 'utf8');
  const after = change(before);
  expect(after.toString(), 'the change must change something').not.toBe(before);
  await writeFile(join(folder, file), after);
  return faultsIn(await readPack(folder, { expandCode: expandH7, ...options }));
};

const faultsIn = (read: Awaited<ReturnType<typeof readPack>>): readonly Fault[] => {
  const trouble = troubleIn(read);
  expect(trouble.code).toBe('pack-invalid');
  return (trouble.all ?? []) as readonly Fault[];
};

const swap = (from: string, to: string) => (text: string) => text.replace(from, to);
const jsonRow = async (file: string, needle: string): Promise<number> => {
  const text = await readFile(join(await copyOfSmallPack(), file), 'utf8');
  return text.slice(0, text.indexOf(needle)).split('\n').length;
};

describe('a pack that cannot be read', () => {
  test('no such folder, and a file in its place', async () => {
    const folder = freshFolder();
    expect(troubleIn(await readPack(join(folder, 'nowhere')))).toMatchObject({ code: 'pack-unreadable', place: join(folder, 'nowhere') });
    await writeFile(join(folder, 'file'), '');
    expect(troubleIn(await readPack(join(folder, 'file'))).sentence).toContain('is a file, not a folder');
  });

  test('every missing file is named', async () => {
    const folder = await copyOfSmallPack();
    await rm(join(folder, 'parts.csv'));
    await rm(join(folder, 'joints.json'));
    const found = faultsIn(await readPack(folder, { expandCode: expandH7 }));
    expect(found.map((fault) => [fault.file, fault.found])).toEqual([
      ['joints.json', 'no such file'],
      ['parts.csv', 'no such file'],
    ]);
  });

  test('a folder where a file should be', async () => {
    const folder = await copyOfSmallPack();
    await rm(join(folder, 'facts.csv'));
    await mkdir(join(folder, 'facts.csv'));
    expect(faultsIn(await readPack(folder, { expandCode: expandH7 }))).toMatchObject([{ file: 'facts.csv', found: 'a folder' }]);
  });

  test('text that is not UTF-8, with its row', async () => {
    const found = await faultsAfter('parts.csv', (text) => {
      const bytes = Buffer.from(text);
      bytes[text.indexOf('journal set')] = 0xe9;
      return bytes;
    });
    expect(found).toMatchObject([{ file: 'parts.csv', row: 14, found: 'bytes that are not UTF-8' }]);
  });

  test('JSON that breaks off, and an empty file', async () => {
    expect(await faultsAfter('slots.json', (text) => text.slice(0, 300))).toMatchObject([
      { file: 'slots.json', found: 'the end of the line or file' },
    ]);
    expect(await faultsAfter('slots.json', () => '')).toMatchObject([{ file: 'slots.json', row: 1, found: 'an empty file' }]);
  });

  test('the row of a syntax error', async () => {
    const found = await faultsAfter('stages.json', swap('"minutes": 6', '"minutes": six'));
    expect(found).toMatchObject([{ file: 'stages.json', row: await jsonRow('stages.json', '"minutes": 6') }]);
  });
});

describe('the shape of JSON files', () => {
  test('a field the format does not know, a missing field and a wrong type, each with its row', async () => {
    expect(await faultsAfter('slots.json', swap('"swapMinutes": 40', '"swapMinutes": "40"'))).toMatchObject([
      { row: await jsonRow('slots.json', '"swapMinutes": 40'), column: '[1].swapMinutes', found: '"40"', expected: 'a number' },
    ]);
    expect(await faultsAfter('slots.json', swap('"swapMinutes": 40', '"swapMinutes": 40, "colour": "red"'))).toMatchObject([
      { column: '[1].colour', found: 'the field "colour"', expected: 'only the fields of the format' },
    ]);
    expect(await faultsAfter('ports.json', swap('"name": "outside"', '"title": "outside"'))).toMatchObject([
      { column: '[3].name', found: 'nothing' },
      { column: '[3].title', found: 'the field "title"' },
    ]);
  });

  test('the same key twice', async () => {
    expect(await faultsAfter('ports.json', swap('"name": "outside"', '"name": "inside",\n"name": "outside"'))).toMatchObject([
      { column: '[3].name', found: 'the same key twice' },
    ]);
  });

  test('an unknown unit', async () => {
    expect(await faultsAfter('features.json', swap('"unit": "mm"', '"unit": "furlong"'))).toMatchObject([
      { column: '[1].unit', found: '"furlong"', expected: 'mm or deg, for a measure' },
    ]);
  });

  test('a pack of another version or format', async () => {
    expect(await faultsAfter('pack.json', swap('"version": 1', '"version": 2'))).toMatchObject([
      { column: 'version', found: '2', expected: '1' },
    ]);
    expect(await faultsAfter('pack.json', swap('2026-03-02', 'March'))).toMatchObject([{ column: 'edition', found: '"March"' }]);
  });

  test('limits the wrong way round, an unknown rule, a choice without options', async () => {
    expect(await faultsAfter('joints.json', swap('"min": 0.01', '"min": 3'))).toMatchObject([
      { column: '[0].rules[0]', expected: '`min` no greater than `max`' },
    ]);
    expect(await faultsAfter('joints.json', swap('"pilot"', '"glue"'))).toMatchObject([
      { column: '[0].rules[0].kind', expected: 'a known kind' },
    ]);
    expect(await faultsAfter('features.json', swap('"kind": "presence"', '"kind": "choice"'))).toMatchObject([
      { expected: 'the options of a choice' },
    ]);
  });

  test('half a surrogate pair, which no file could give back', async () => {
    expect(await faultsAfter('sources.json', swap('Measured on', 'Measured \\ud83c on'))).toMatchObject([
      { found: 'half a surrogate pair' },
    ]);
  });
});

describe('rows of CSV files', () => {
  test('another header, another separator', async () => {
    expect(await faultsAfter('parts.csv', swap('pattern_of', 'copy_of'))).toMatchObject([{ file: 'parts.csv', row: 1, column: null }]);
    expect(await faultsAfter('allowed.csv', (text) => text.replaceAll(',', ';'))).toMatchObject([
      { row: 1, expected: 'the header model,slot,part,role' },
    ]);
  });

  test('too few and too many cells', async () => {
    expect(await faultsAfter('allowed.csv', swap('tern-4,bearing-set,bs-journal,service', 'tern-4,bearing-set,bs-journal'))).toMatchObject([
      { file: 'allowed.csv', row: 5, found: '3 cells', expected: '4 cells (model, slot, part, role)' },
    ]);
    expect(
      await faultsAfter('allowed.csv', swap('tern-4,bearing-set,bs-journal,service', 'tern-4,bearing-set,bs-journal,service,')),
    ).toMatchObject([{ row: 5, found: '5 cells' }]);
  });

  test('a quote that never closes', async () => {
    const found = await faultsAfter('parts.csv', swap('journal set', '"journal set'));
    expect(found[0]).toMatchObject({ file: 'parts.csv', row: 14, expected: 'a quote at both ends of the cell' });
  });

  test('a malformed row does not make others dangle', async () => {
    const found = await faultsAfter('parts.csv', swap('bh-tern,bearing-housing,', 'bh-tern,'));
    expect(found).toHaveLength(1);
  });

  test('CRLF and a byte order mark are taken as spreadsheets write them', async () => {
    const folder = await copyOfSmallPack();
    for (const file of ['parts.csv', 'facts.csv', 'allowed.csv']) {
      const text = await readFile(join(folder, file), 'utf8');
      await writeFile(join(folder, file), `\ufeff${text.replaceAll('\n', '\r\n')}`);
    }
    const spoilt = valueIn(await readPack(folder, { expandCode: expandH7 }));
    expect(spoilt).toEqual(valueIn(await readPack(await copyOfSmallPack(), { expandCode: expandH7 })));
  });

  test('names with commas, quotes and line breaks in them come through', async () => {
    const folder = await copyOfSmallPack();
    const text = await readFile(join(folder, 'parts.csv'), 'utf8');
    await writeFile(join(folder, 'parts.csv'), text.replace('journal set', '"journal ""full"" set, old"'));
    const pack = valueIn(await readPack(folder, { expandCode: expandH7 }));
    expect(pack.parts.find((part) => part.id === 'bs-journal')?.name).toBe('journal "full" set, old');
  });
});

test.each([
  ['a line break in a name', 'journal set', '"journal\nset"', 'name'],
  ['a space after a name', 'journal set', 'journal set ', 'name'],
  ['an empty number', 'BERTH 150-0001', 'BERTH 150-0001;', 'numbers'],
  ['a number twice', 'BERTH 150-0001', 'BERTH 150-0001;BERTH 150-0001', 'numbers'],
  ['an id with a space', 'bs-journal,bearing-set,journal', 'bs journal,bearing-set,journal', 'id'],
])('%s', async (_, from, to, column) => {
  expect((await faultsAfter('parts.csv', swap(from, to)))[0]).toMatchObject({ file: 'parts.csv', row: 14, column });
});

describe('facts', () => {
  const fact = (from: string, to: string) => faultsAfter('facts.csv', swap(from, to));

  test('[A5] what is not known is ? and stands alone; an empty value is no answer', async () => {
    expect(await fact('ch-petrel,ch-recess-diameter,?,,,,', 'ch-petrel,ch-recess-diameter,,,,,')).toMatchObject([
      { row: 7, column: 'value', found: 'nothing', expected: 'a value, or ? where it is not known' },
    ]);
    expect(await fact('ch-petrel,ch-recess-diameter,?,,,,', 'ch-petrel,ch-recess-diameter,?,0,,,')).toMatchObject([
      { column: 'lower', expected: 'nothing beside ?' },
    ]);
  });

  test.each([
    ['a count', 'cw-tern-4,cw-blades,8,,,,', 'cw-tern-4,cw-blades,8.5,,,,', 'value'],
    ['a range the wrong way round', 'np-tern,np-year,1961..1990,,,,', 'np-tern,np-year,1990..1961,,,,', 'value'],
    ['a count with deviations', 'cw-tern-4,cw-blades,8,,,,', 'cw-tern-4,cw-blades,8,0,0,,', 'lower'],
    ['a measure with a decimal comma', 'cw-tern-4,cw-exducer,46.1,-0.05,0.05,,', 'cw-tern-4,cw-exducer,"46,1",-0.05,0.05,,', 'value'],
    ['a measure with its unit', 'cw-tern-4,cw-exducer,46.1,-0.05,0.05,,', 'cw-tern-4,cw-exducer,46.1 mm,-0.05,0.05,,', 'value'],
    ['a measure without deviations', 'cw-tern-4,cw-exducer,46.1,-0.05,0.05,,', 'cw-tern-4,cw-exducer,46.1,,,,', 'lower'],
    ['deviations the wrong way round', 'cw-tern-4,cw-exducer,46.1,-0.05,0.05,,', 'cw-tern-4,cw-exducer,46.1,0.05,-0.05,,', 'upper'],
    ['deviations beside a code', 'ch-tern,ch-recess-diameter,98,,,H7,', 'ch-tern,ch-recess-diameter,98,0,0.035,H7,', 'lower'],
    ['an option nobody listed', 'bs-journal,bs-kind,journal,,,,', 'bs-journal,bs-kind,magnetic,,,,', 'value'],
    ['a presence that is neither', 'bs-journal,bs-needs-water,no,,,,', 'bs-journal,bs-needs-water,No,,,,', 'value'],
    ['a mark with an empty alternative', 'bh-petrel,bh-letters,MERROWBY,,,,', 'bh-petrel,bh-letters,MERROWBY|,,,,', 'value'],
    ['a mark said twice', 'bh-petrel,bh-letters,MERROWBY,,,,', 'bh-petrel,bh-letters,MERROWBY|MERROWBY,,,,', 'value'],
  ])('%s', async (_, from, to, column) => {
    const found = await fact(from, to);
    expect(found).toMatchObject([{ file: 'facts.csv', column }]);
    expect(found[0]?.row).toBeGreaterThan(1);
  });

  test('[F3] an ISO 286 code outside the tables is a fault with its row and column, never a guess', async () => {
    expect(await fact(',H7,', ',J99,')).toMatchObject([{ row: 3, column: 'code', found: '"J99"' }]);
    const folder = await copyOfSmallPack();
    expect(faultsIn(await readPack(folder))).toMatchObject([{ row: 3, column: 'code' }]);
  });

  test('[F3] a code is expanded and kept', async () => {
    const pack = valueIn(await readPack(await copyOfSmallPack(), { expandCode: expandH7 }));
    expect(Object.values(pack.parts[0]?.facts ?? {})).toContainEqual({ kind: 'measure', nominal: 98, lower: 0, upper: 0.035, code: 'H7' });
  });

  test('one feature of one part twice; a feature of another slot', async () => {
    expect(await fact('cw-tern-4,cw-blades,8,,,,', 'cw-tern-4,cw-blades,8,,,,\ncw-tern-4,cw-blades,9,,,,')).toMatchObject([
      { row: 9, column: 'feature', found: 'cw-blades of cw-tern-4 a second time' },
    ]);
    expect(await fact('cw-tern-4,cw-blades,8', 'cw-tern-4,np-year,8')).toMatchObject([
      { row: 8, column: 'feature', found: 'a feature of nameplate' },
    ]);
  });
});

describe('ids and references', () => {
  test('an id twice, in JSON and in CSV', async () => {
    expect(await faultsAfter('families.json', swap('"id": "rowan"', '"id": "tern"'))).toMatchObject([
      {
        column: '[2].id',
        found: '"tern" a second time',
        expected: `an id of its own (row ${await jsonRow('families.json', '"id": "tern"')} has this one)`,
      },
      { file: 'models.json', found: '"rowan"' },
    ]);
    const [first] = await faultsAfter('parts.csv', swap('np-tern,nameplate', 'bh-quay,nameplate'));
    expect(first).toMatchObject({
      row: 16,
      column: 'id',
      found: '"bh-quay" a second time',
      expected: 'an id of its own (row 13 has this one)',
    });
  });

  test.each([
    ['slots.json', '"stage": "core-stripped"', '"stage": "nowhere"', '[2].stage'],
    ['ports.json', '"slot": "bearing-set"', '"slot": "nowhere"', '[3].slot'],
    ['features.json', '"port": "bh-spigot"', '"port": "nowhere"', '[6].port'],
    ['joints.json', '"spigot": "bh-spigot-diameter"', '"spigot": "nowhere"', '[0].rules[0].spigot'],
    ['makers.json', '"feature": "bs-kind"', '"feature": "nowhere"', '[0].grammar.tokens[2].promises[0].feature'],
    ['makers.json', '"token": "bearing"', '"token": "nowhere"', '[0].grammar.demands[0].then.token'],
    ['families.json', '"maker": "tarnwick"', '"maker": "nowhere"', '[2].maker'],
    ['generations.json', '"succeeds": "petrel-1"', '"succeeds": "nowhere"', '[1].succeeds'],
    ['models.json', '"patternOf": "petrel-13"', '"patternOf": "nowhere"', '[4].patternOf'],
    ['parts.csv', ',cw-petrel-13-b,shop-book', ',nowhere,shop-book', 'supersedes'],
    ['parts.csv', ',merrowby,BERTH 150-0001', ',nowhere,BERTH 150-0001', 'maker'],
    ['facts.csv', 'np-tern,np-year', 'nowhere,np-year', 'part'],
    ['facts.csv', ',bench', ',nowhere', 'source'],
    ['allowed.csv', 'quay-13,bearing-set', 'nowhere,bearing-set', 'model'],
  ])('%s: %s leads nowhere', async (file, from, to, column) => {
    const [found] = await faultsAfter(file, swap(from, to));
    expect(found).toMatchObject({ file, column });
    expect(found?.row).toBeGreaterThan(0);
    expect(found?.found).toContain('nowhere');
  });

  test.each([
    ['a size no name can have', '"13": 57', '"23": 57', 'of.23', '"23"'],
    ['a size below the first', '"13": 57', '"0": 57', 'of.0', '"0"'],
    ['a size written as no name writes it', '"13": 57', '"013": 57', 'of.013', '"013"'],
    ['a size in letters', '"13": 57', '"XIII": 57', 'of.XIII', '"XIII"'],
    ['a measure within its own leeway of nothing', '"13": 57', '"13": 0.6', 'of.13', '0.6 within 0.6'],
    ['a measure of nothing', '"13": 57', '"13": 0', 'of.13', '0'],
    ['a measure that is none', '"13": 57', '"13": "57"', 'of.13', '"57"'],
    ['a leeway below nothing', '"within": 0.6', '"within": -0.6', 'within', '-0.6'],
    ['no table', '"4": 46,', '', '', ''],
  ])('[A4] a table of sizes: %s', async (_what, from, to, column, found) => {
    const empty = (text: string) => text.replace(/"of": \{\s*"4": 46,\s*"9": 52,\s*"13": 57\s*\}/, '"of": {}');
    const faults = await faultsAfter('makers.json', column === '' ? empty : swap(from, to));
    expect(faults).toHaveLength(1);
    expect(faults[0]?.column).toMatch(/^\[0\]\.grammar\.tokens\[1\]\.promises\[0\]/);
    if (column === '') expect(faults[0]).toMatchObject({ found: 'an empty table' });
    else {
      expect(faults[0]?.column).toContain(column.split('.')[1] ?? column);
      expect(faults[0]?.found).toBe(found);
    }
  });

  test('[A4] a table of sizes speaks of a measure', async () => {
    expect(await faultsAfter('makers.json', swap('"feature": "cw-exducer"', '"feature": "cw-blades"'))).toMatchObject([
      { found: 'the count "cw-blades"', expected: 'a measure' },
    ]);
  });

  test('a reference into a file that could not be read is not called dangling', async () => {
    expect(await faultsAfter('makers.json', () => 'oh')).toHaveLength(1);
  });

  test('kinds that do not agree', async () => {
    expect(await faultsAfter('joints.json', swap('"spigot": "bh-spigot-diameter"', '"spigot": "bh-letters"'))).toMatchObject([
      { found: 'the mark "bh-letters"', expected: 'a measure' },
    ]);
    expect(await faultsAfter('joints.json', swap('"spigot": "bh-spigot-diameter"', '"spigot": "cw-exducer"'))).toMatchObject([
      { found: 'a feature of compressor-wheel' },
    ]);
    const sameSide = await faultsAfter('joints.json', swap('"spigot": "bh-spigot-diameter"', '"spigot": "ch-recess-diameter"'));
    expect(sameSide[0]).toMatchObject({ expected: 'a feature of the other part' });
    expect(await faultsAfter('makers.json', swap('"cartridge"', '"magnetic"'))).toMatchObject([
      { column: '[0].grammar.tokens[2].promises[0].of.Cartridge[0]' },
    ]);
    expect(await faultsAfter('allowed.csv', swap('tern-4,bearing-set,bs-journal', 'tern-4,nameplate,bs-journal'))).toMatchObject([
      { column: 'slot', expected: 'bearing-set, where bs-journal sits' },
    ]);
    expect(await faultsAfter('models.json', swap('"family": "petrel"', '"family": "rowan"'))).toMatchObject([
      { column: '[2].generation', found: 'a generation of petrel' },
    ]);
  });

  test('a pattern part bears no maker’s name', async () => {
    expect(
      await faultsAfter(
        'parts.csv',
        swap('bh-quay,bearing-housing,Quay bearing housing,,', 'bh-quay,bearing-housing,Quay bearing housing,tarnwick,'),
      ),
    ).toMatchObject([{ row: 13, column: 'maker', found: '"tarnwick"' }]);
  });

  test('a part listed twice in one model, and a role nobody knows', async () => {
    expect(await faultsAfter('allowed.csv', (text) => `${text}tern-4,bearing-set,bs-journal,option\n`)).toMatchObject([
      { found: 'bs-journal in tern-4 a second time' },
    ]);
    expect(await faultsAfter('allowed.csv', swap('bs-journal,service', 'bs-journal,spare'))).toMatchObject([
      { row: 5, column: 'role', found: '"spare"' },
    ]);
  });

  test('circles', async () => {
    expect(await faultsAfter('parts.csv', swap('BERTH 310-0057,,,', 'BERTH 310-0057,,cw-petrel-13-c,'))).toMatchObject([
      { column: 'supersedes', found: 'a circle: cw-petrel-13 → cw-petrel-13-c → cw-petrel-13-b → cw-petrel-13' },
    ]);
    expect(await faultsAfter('families.json', swap('"descendsFrom": []', '"descendsFrom": ["petrel"]'))).toMatchObject([
      { found: 'a circle: tern → petrel → tern' },
    ]);
    expect(await faultsAfter('stages.json', swap('"after": []', '"after": ["core-stripped"]'))).toMatchObject([{ column: '[0].after' }]);
  });
});

describe('sample sheets', () => {
  const sheet = (from: string, to: string) => faultsAfter('sheets/found-01.json', swap(from, to));

  test('a slot, a feature and an option the atlas does not have', async () => {
    expect(await sheet('"slot": "compressor-wheel"', '"slot": "propeller"')).toMatchObject([
      { column: 'observations[0].slot', found: '"propeller"' },
    ]);
    expect(await sheet('"feature": "cw-blades"', '"feature": "cw-scent"')).toMatchObject([
      { column: 'observations[0].feature', found: '"cw-scent"' },
    ]);
    expect(await sheet('"nameplate"', '"propeller"')).toMatchObject([{ column: 'absent[0]' }]);
  });

  test('a file under another name than its sheet’s id', async () => {
    expect(await sheet('"id": "found-01"', '"id": "found-02"')).toMatchObject([{ file: 'sheets/found-01.json', column: 'id' }]);
  });
});

test('one reading finds every fault, up to the limit, and says how many there are', async () => {
  const folder = await copyOfSmallPack();
  const csv = join(folder, 'allowed.csv');
  await writeFile(csv, (await readFile(csv, 'utf8')).replaceAll('names', 'name'));
  const trouble = troubleIn(await readPack(folder, { expandCode: expandH7, limit: 5 }));
  expect(trouble.all).toHaveLength(5);
  expect(trouble.sentence).toContain('The pack has 16 faults (the first 5 are listed)');
  expect(trouble.place).toBe(`${folder}/allowed.csv, row 3, column role`);
});
