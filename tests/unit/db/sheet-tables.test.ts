import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSheetTable, type TableUnit, tableColumns } from '../../../db/index.ts';
import { faultsOfSheet } from '../../../db/sheets/check-sheet.ts';
import type { TableTerms } from '../../../db/sheets/table-terms.ts';
import type { Feature, Maker, Sheet, Slot } from '../../../reasoner/index.ts';
import { limits } from '../../../reasoner/plain/limits.ts';
import { demoAtlas, demoPack } from '../seed/demo-atlas.ts';

const header = tableColumns.join(',');
const read = (...rows: string[]): TableUnit[] => readSheetTable([header, ...rows].join('\n'), 't.csv', demoAtlas);
const sheetIn = (units: readonly TableUnit[]): Sheet => {
  const [unit] = units;
  if (unit?.ok !== true) throw new Error(JSON.stringify(units));
  return unit.sheet;
};
const faultsIn = (units: readonly TableUnit[]) => units.flatMap((unit) => (unit.ok ? [] : unit.faults));
/** One row of a unit about one feature. */
const row = (slot: string, feature: string, value: string, how: string, u = ''): string =>
  ['q', '', '', '', slot, feature, value, how, u, ''].join(',');

describe('a table of sheets', () => {
  test('[O1] the rows of one unit are its sheet: what it claims, what was seen, measured and told, what could not be seen, what is absent', () => {
    const sheet = sheetIn(
      read(
        'q7,Grey one at the quay,Lisle Air Engines,Petrel 13 Cartridge,compressor housing,cast name,MERROWBY,seen,,from the photograph',
        'q7,,,,turbine wheel,blade count,11,told,,',
        'q7,,,,compressor wheel,exducer diameter,2.25 in,measured,0.002,',
        'q7,,,,bearing housing,water ports,?,,,',
        'q7,,,,nameplate,(absent),,,,',
      ),
    );
    expect(sheet).toMatchObject({
      id: 'q7',
      title: 'Grey one at the quay',
      kind: 'found',
      claimed: 'Petrel 13 Cartridge',
      claimedMaker: 'merrowby',
    });
    expect(sheet.absent).toEqual(['nameplate']);
    expect(sheet.unseen).toEqual([{ slot: 'bearing-housing', feature: 'bearing-housing-water-ports', why: 'could not see' }]);
    expect(sheet.observations.map(({ value, sure }) => [value, sure])).toEqual([
      [{ kind: 'mark', text: 'MERROWBY' }, { kind: 'seen' }],
      [{ kind: 'count', from: 11, to: 11 }, { kind: 'told' }],
      [
        { kind: 'measure', value: 57.15 },
        { kind: 'measured', u: 0.0508 },
      ],
    ]);
    expect(sheet.observations[0]?.note).toBe('from the photograph');
    // What was not said is not there.
    expect(sheet.observations.slice(1).filter((entry) => 'note' in entry || 'confirmed' in entry)).toEqual([]);
    expect(sheetIn(read('q7,,,,turbine wheel,blade count,11,told,,'))).toEqual({
      id: 'q7',
      title: '',
      story: '',
      kind: 'found',
      claimed: null,
      claimedMaker: null,
      observations: [
        {
          id: 'row-2',
          slot: 'turbine-wheel',
          feature: 'turbine-wheel-blades',
          value: { kind: 'count', from: 11, to: 11 },
          sure: { kind: 'told' },
        },
      ],
      absent: [],
      chosen: {},
    });
  });

  test('[O1] how sure is never guessed: a row that does not say is a fault', () => {
    expect(faultsIn(read(row('turbine wheel', 'blade count', '11', ''))).map(({ column, sentence }) => [column, sentence])).toEqual([
      ['how', 't.csv, row 2, column how: found nothing, expected seen or told, for a count.'],
    ]);
    expect(faultsIn(read(row('compressor wheel', 'exducer diameter', '57', 'seen')))[0]?.expected).toBe('measured or told, for a measure');
    expect(faultsIn(read(row('compressor wheel', 'exducer diameter', '57', 'measured')))[0]?.column).toBe('u');
  });

  test.each([
    [row('turbine wheel', 'blade count', 'eleven', 'seen'), 'value', 'a whole number'],
    [row('turbine wheel', 'blade count', '12..10', 'seen'), 'value', 'a whole number'],
    [row('turbine wheel', 'blade count', '', 'seen'), 'value', 'a value, or ?'],
    [row('turbine wheel', 'blade count', '?', 'seen'), 'how', 'nothing beside ?'],
    [row('turbine wheel', 'propeller', '3', 'seen'), 'feature', 'a feature of the turbine wheel'],
    [row('', 'blade count', '3', 'seen'), 'feature', 'the id of a feature'],
    [row('propeller', 'blade count', '3', 'seen'), 'slot', 'compressor housing or'],
    [row('compressor wheel', 'turbine-wheel-blades', '11', 'seen'), 'feature', 'a feature of the compressor wheel'],
    [row('bearing housing', 'water ports', 'maybe', 'seen'), 'value', 'yes, no or ?'],
    [row('compressor wheel', 'exducer diameter', '57,2 mm', 'told').replace('57,2 mm', '"57,2 mm"'), 'value', 'millimetres'],
    [row('compressor wheel', 'exducer diameter', '57.2', 'measured', '-1'), 'u', 'above 0'],
    [row('compressor wheel', 'exducer diameter', '57.2', 'told', '0.1'), 'u', 'nothing, for what was told'],
    [row('nameplate', '(absent)', 'yes', 'seen'), 'value', 'nothing beside (absent)'],
    [row('nameplate', '(absent)', '', 'seen', '1'), 'how', 'nothing beside (absent)'],
    [row('nameplate', '(absent)', '', '', '1'), 'u', 'nothing beside (absent)'],
    [row('turbine wheel', '', '', ''), 'feature', 'a feature of the turbine wheel, by its id or name'],
    [row('turbine wheel', '', '11', 'seen'), 'feature', 'a feature of the turbine wheel, by its id or name'],
    [row('', '(absent)', '', ''), 'slot', 'the slot that holds nothing'],
    [row('', '', '11', 'seen'), 'feature', 'the feature that value is about'],
  ])('[T1] %s: the fault names row and column', (text, column, expected) => {
    const [fault, ...more] = faultsIn(read(text));
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ file: 't.csv', row: 2, column });
    expect(fault?.expected).toContain(expected);
    // What stands in the cell, and where nothing does, nothing.
    const cell = text.includes('"') ? '57,2 mm' : (text.split(',')[tableColumns.indexOf(column as (typeof tableColumns)[number])] ?? '');
    expect(fault?.found).toBe(cell === '' ? 'nothing' : `"${cell}"`);
  });

  test('[T1] a fault spoils its own unit and no other, and all faults of the unit are said', () => {
    const units = read(
      'a,,,,turbine wheel,blade count,x,seen,,',
      'b,,,,turbine wheel,blade count,11,seen,,',
      'a,,,,turbine wheel,blade count,y,seen,,',
    );
    expect(units.map(({ source, ok }) => [source, ok])).toEqual([
      ['t.csv, unit a', false],
      ['t.csv, unit b', true],
    ]);
    expect(faultsIn(units).map((fault) => fault.row)).toEqual([2, 4]);
  });

  test('[T1] a title or a claim said twice otherwise, an unknown maker, a row too long or without a unit are faults', () => {
    expect(faultsIn(read('a,One,,,,,,,,', 'a,Two,,,,,,,,'))).toMatchObject([
      { row: 3, column: 'title', expected: '"One", as on row 2, or nothing' },
    ]);
    expect(faultsIn(read('a,One,,Petrel,,,,,,', 'a,,,Petrel,,,,,,', 'a,One,,,,,,,,'))).toEqual([]);
    expect(faultsIn(read('a,,Heron,,,,,,,'))).toMatchObject([{ row: 2, column: 'maker' }]);
    expect(faultsIn(read('a,,,,,,,,,', 'a,One,,,,,,,,', 'a,,Heron,,,,,,,', 'a,,Heron,,,,,,,'))).toMatchObject([
      { row: 4, column: 'maker' },
    ]);
    expect(faultsIn(read('a,One,,,,,,,,', 'a,,,x,,,,,,', 'a,Two,,y,,,,,,')).map(({ sentence }) => sentence)).toEqual([
      't.csv, row 4, column title: found "Two", expected "One", as on row 2, or nothing.',
      't.csv, row 4, column claimed: found "y", expected "x", as on row 3, or nothing.',
    ]);
    expect(faultsIn(read('a,,,,,,,,,,more'))).toMatchObject([{ row: 2, found: '11 cells' }]);
    expect(faultsIn(read('a,,,,nameplate,(absent),,,,', 'a,,,,nameplate,(absent),,,,'))).toMatchObject([{ row: 3 }]);
    const unseen = row('nameplate', 'fixing', '?', '');
    expect(faultsIn(read(unseen, unseen)).map(({ sentence }) => sentence)).toEqual([
      't.csv, row 3, column feature: found the same feature unseen twice, expected every unseen feature once.',
    ]);
  });

  test('[T1] every row without a unit is a fault by itself, and none of them is held against another', () => {
    const units = read(',One,,,,,,,,', 'a,,,,turbine wheel,blade count,11,seen,,', ' ,Two,,,turbine wheel,blade count,x,seen,,');
    expect(units.map(({ source, ok }) => [source, ok])).toEqual([
      ['t.csv, row 2', false],
      ['t.csv, row 4', false],
      ['t.csv, unit a', true],
    ]);
    expect(faultsIn(units).map(({ sentence }) => sentence)).toEqual(
      [2, 4].map((at) => `t.csv, row ${at}, column unit: found nothing, expected an id for the unit, the same on each of its rows.`),
    );
  });

  const long = (letters: number) => 'x'.repeat(letters);
  test.each<[string, number, (letters: number) => string, string]>([
    ['a unit', 200, (n) => `${long(n)},,,,,,,,,`, 'row 2, column unit'],
    ['a title', 300, (n) => `a,,,,,,,,,\na,${long(n)},,,,,,,,`, 'row 3, column title'],
    ['a claim', 300, (n) => `a,,,,,,,,,\na,,,,,,,,,\na,,,${long(n)},,,,,,`, 'row 4, column claimed'],
    [
      'a note',
      4000,
      (n) => `a,,,,turbine wheel,blade count,11,seen,,short\na,,,,,,,,,\na,,,,turbine wheel,blade count,12,seen,,${long(n)}`,
      'row 4, column note',
    ],
    [
      'cast letters',
      2000,
      (n) => `a,,,,turbine wheel,blade count,11,seen,,\na,,,,compressor housing,cast name,${long(n)},seen,,`,
      'row 3, column value',
    ],
  ])('[R6] %s is as long as a sheet has room for, and one letter more is refused by its row and column', (_, most, rows, place) => {
    expect(faultsIn(read(rows(most)))).toEqual([]);
    expect(faultsIn(read(rows(most + 1))).map(({ sentence }) => sentence)).toEqual([
      expect.stringMatching(new RegExp(`^t\\.csv, ${place}: found "x{70,}…, expected at most ${most} letters\\.$`)),
    ]);
  });

  test('[R6] a unit has as many entries as a sheet has room for, and no more; all that is too long in it is said at once', () => {
    const entries = (many: number) => read(...Array<string>(many).fill(row('turbine wheel', 'blade count', '11', 'seen')));
    expect(sheetIn(entries(2000)).observations).toHaveLength(2000);
    expect(faultsIn(entries(2001)).map(({ sentence }) => sentence)).toEqual([
      't.csv, row 2: found 2001 entries, expected at most 2000 entries.',
    ]);
    expect(faultsIn(read(`a,${long(301)},,${long(301)},,,,,,`)).map(({ column }) => column)).toEqual(['title', 'claimed']);
  });

  test('[R6] a unit of too many rows is refused by the first of them, and a table that is too long at once', () => {
    const rows = (many: number) => read('r,,,,,,,,,', ...Array<string>(many).fill('q,,,,,,,,,'));
    expect(rows(limits.unitRows).map(({ ok }) => ok)).toEqual([true, true]);
    expect(rows(limits.unitRows + 1)).toEqual([
      expect.objectContaining({ source: 't.csv, unit r', ok: true }),
      {
        source: 't.csv, unit q',
        ok: false,
        faults: [
          {
            file: 't.csv',
            row: 5003,
            column: null,
            found: '5001 rows of unit "q"',
            expected: '5000 at most',
            sentence: 't.csv, row 5003: found 5001 rows of unit "q", expected 5000 at most.',
          },
        ],
      },
    ]);
    const table = (letters: number) => `${header}\nq,,,,,,,,,`.padEnd(letters, 'x');
    expect(readSheetTable(table(limits.tableLetters), 't.csv', demoAtlas)).toMatchObject([{ ok: true }]);
    expect(readSheetTable(table(limits.tableLetters + 1), 't.csv', demoAtlas)).toEqual([
      {
        source: 't.csv',
        ok: false,
        faults: [
          {
            file: 't.csv',
            row: null,
            column: null,
            found: '12000001 characters',
            expected: '12000000 at most',
            sentence: 't.csv: found 12000001 characters, expected 12000000 at most.',
          },
        ],
      },
    ]);
  });

  test('another header is one fault; semicolons, a byte order mark, CRLF and empty rows are read', () => {
    const sentences = (text: string) => faultsIn(readSheetTable(text, 't.csv', demoAtlas)).map(({ sentence }) => sentence);
    expect(sentences('unit,what\na,b')).toEqual([`t.csv, row 1: found "unit,what", expected the header ${header}.`]);
    expect(sentences('')).toEqual([`t.csv, row 1: found "", expected the header ${header}.`]);
    const text = `\uFEFF${tableColumns.join(';')}\r\nq;;;;turbine wheel;blade count;11;seen;;\r\n;;;;;;;;;\r\n`;
    expect(sheetIn(readSheetTable(text, 't.csv', demoAtlas)).observations).toHaveLength(1);
    const entry = 'q,,,,turbine wheel,blade count,11,seen,,';
    for (const [head, ...rows] of [
      [`\uFEFF"unit"${header.slice(4)}`, entry],
      [` Unit ,TITLE, ${tableColumns.slice(2).join(' , ')} `, entry],
      [header, ' , ,,,,,,,,\t', entry, '   '],
    ] as const)
      expect(readSheetTable([head, ...rows].join('\n'), 't.csv', demoAtlas), head).toMatchObject([{ ok: true }]);
  });

  test.each([
    ['a semicolon in a note, between commas', header, 'q,,,,turbine wheel,blade count,11,seen,,one bent; none lost', 'one bent; none lost'],
    [
      'many commas in a note, between semicolons',
      header.replaceAll(',', ';'),
      `q;;;;turbine wheel;blade count;11;seen;;1${',2'.repeat(40)}`,
      `1${',2'.repeat(40)}`,
    ],
    [
      'semicolons in each row, and one cut short',
      header,
      'q,,,,turbine wheel,blade count,11,seen,,one; bent; at; its tip\ncut; off; too; soon',
      'one; bent; at; its tip',
    ],
  ])('[T1] %s: what parts the cells is told by the header alone', (_, head, entry, note) => {
    const units = readSheetTable(`${head}\n${entry}\n`, 't.csv', demoAtlas);
    expect(sheetIn(units.filter(({ ok }) => ok)).observations).toMatchObject([{ note }]);
  });

  test('[T1] a quote where none may be is a fault of its row, which says how much more it took in', () => {
    const good = 'b,,,,turbine wheel,blade count,11,seen,,';
    const sentences = (...rows: string[]) => faultsIn(read(...rows)).map(({ sentence }) => sentence);
    const units = read(good, '"a"x",,,,,,,,,', 'c,,,,,,,,,');
    expect(units.map(({ source, ok }) => [source, ok])).toEqual([
      ['t.csv, row 3', false],
      ['t.csv, unit b', true],
      ['t.csv, unit c', true],
    ]);
    const trailing = 'something beside a closing quote';
    const doubled = 'a quote at both ends of the cell, and each within it written twice';
    expect(sentences(good, '"a"x",,,,,,,,,', 'c,,,,,,,,,')).toEqual([`t.csv, row 3: found ${trailing}, expected ${doubled}.`]);
    const open = 'a quote that is opened and not closed';
    expect(sentences(good, 'a,"One,,,,,,,,', good, '  ', 'c,,,,,,,,,', '')).toEqual([
      `t.csv, row 3: found ${open}, and the 2 lines below went into the cell, expected a quote at both ends of the cell.`,
    ]);
    expect(sentences('a,"One"x,,,,,,,,', '"c",,,,,,,,,', good)).toEqual([
      `t.csv, row 2: found ${trailing}, and the line below went into the cell, expected ${doubled}.`,
    ]);
    const headed = (head: string, ...rows: string[]) => faultsIn(readSheetTable([head, ...rows].join('\n'), 't.csv', demoAtlas));
    expect(headed(`"unit"x"${header.slice(4)}`, good)).toMatchObject([{ row: 1, found: trailing, expected: `the header ${header}` }]);
    const note = `${header.slice(0, -4)}"note`;
    expect(headed(note)).toMatchObject([{ row: 1, found: open }]);
    expect(headed(note, good, good)).toMatchObject([{ row: 1, found: `${open}, and the 2 lines below went into the cell` }]);
  });

  test('[T1] what a name could mean is never guessed: a name of several is refused, and their ids asked for', () => {
    const [maker, other] = demoAtlas.makers as readonly [Maker, Maker];
    const slot = demoAtlas.slots.find(({ id }) => id === 'turbine-wheel') as Slot;
    const blades = demoAtlas.features.find(({ id }) => id === 'turbine-wheel-blades') as Feature;
    const traded = (each: Maker, ...names: string[]): Maker => ({
      ...each,
      tradeNames: [...each.tradeNames, ...names.map((name) => ({ name, from: 1950, to: null }))],
    });
    const terms: TableTerms = {
      slots: [...demoAtlas.slots, { ...slot, id: 'second-wheel' as Slot['id'], name: 'Turbine Wheel' }],
      features: [
        ...demoAtlas.features.filter((feature) => feature.slot !== 'nameplate'),
        { ...blades, id: 'wheel-vanes' as Feature['id'], name: 'Blade count' },
      ],
      makers: [traded(maker, 'Quay Works', 'Quay Works', 'Pier Works'), traded(other, 'PIER WORKS')],
    };
    const withTerms = (...cells: string[]) => readSheetTable(`${header}\na,${cells.join()}`, 't.csv', terms);
    const told = (...cells: string[]) => faultsIn(withTerms(...cells)).map(({ column, found, expected }) => [column, found, expected]);
    const oneOf = (...ids: string[]) => `the id of one of those called so: ${ids.join(' or ')}`;
    expect(told('', 'pier works', '', '', '', '', '', '', '')).toEqual([['maker', '"pier works"', oneOf(maker.id, other.id)]]);
    expect(told('', '', '', 'turbine wheel', 'blade count', '11', 'seen', '', '')).toEqual([
      ['slot', '"turbine wheel"', oneOf('turbine-wheel', 'second-wheel')],
    ]);
    expect(told('', '', '', 'turbine-wheel', 'Blade Count', '11', 'seen', '', '')).toEqual([
      ['feature', '"Blade Count"', oneOf('turbine-wheel-blades', 'wheel-vanes')],
    ]);
    for (const [id, text] of [
      [maker.id, 'quay works'],
      [maker.id, maker.id],
      [maker.id, maker.name.toUpperCase()],
    ])
      expect(sheetIn(withTerms('', text ?? '', '', '', '', '', '', '', '')).claimedMaker).toBe(id);
    expect(sheetIn(withTerms('', '', '', 'turbine-wheel', 'wheel-vanes', '11', 'seen', '', '')).observations).toMatchObject([
      { slot: 'turbine-wheel', feature: 'wheel-vanes' },
    ]);
    // Of a slot in which nothing is ever looked at.
    expect(told('', '', '', 'nameplate', 'fixing', 'riveted', 'seen', '', '')).toEqual([
      ['feature', '"fixing"', 'a feature of the nameplate, by its id or name'],
    ]);
  });

  test('[O2] every sample of the demo pack, written as a table and read again, is the same to the reasoner', () => {
    for (const sheet of demoPack.sheets.filter(({ kind }) => kind === 'found')) {
      const quoted = (text: string): string => `"${text.replaceAll('"', '""')}"`;
      const rows = [
        ['u', quoted(sheet.title), sheet.claimedMaker ?? '', quoted(sheet.claimed ?? ''), '', '', '', '', '', ''],
        ...sheet.absent.map((slot) => ['u', '', '', '', slot, '(absent)', '', '', '', '']),
        ...sheet.observations.map(({ slot, feature, value, sure }) => {
          const said =
            value.kind === 'count'
              ? `${value.from}..${value.to}`
              : value.kind === 'measure'
                ? String(value.value)
                : value.kind === 'choice'
                  ? value.option
                  : value.kind === 'presence'
                    ? value.present
                      ? 'yes'
                      : 'no'
                    : (value.text ?? '(blank)');
          return ['u', '', '', '', slot, feature, quoted(said), sure.kind, sure.kind === 'measured' ? String(sure.u) : '', ''];
        }),
      ].map((cells) => cells.join(','));
      const back = sheetIn(read(...rows));
      const matters = ({ observations, absent, claimed, claimedMaker }: Sheet) => ({
        claimed,
        claimedMaker,
        absent,
        observations: observations.map(({ slot, feature, value, sure }) => ({ slot, feature, value, sure })),
      });
      expect(matters(back)).toEqual(matters(sheet));
    }
  });

  test('[T1] whatever is in the cells, every row is in some unit or some fault, and what is read holds against the atlas', () => {
    const known = {
      slot: (id: string) => demoAtlas.slots.find((one) => one.id === id),
      feature: (id: string) => demoAtlas.features.find((one) => one.id === id),
      part: (id: string) => demoAtlas.parts.find((one) => one.id === id),
      maker: (id: string) => demoAtlas.makers.find((one) => one.id === id),
    };
    const feature = fc.constantFrom(...demoAtlas.features);
    const cell = fc.oneof(
      fc.constantFrom('', '?', '11', '10..11', 'yes', 'no', '(blank)', '57.2', '2 in', '=1+1', 'seen', 'told', 'measured'),
      fc.string({ maxLength: 6 }),
    );
    const line = fc
      .record({ unit: fc.constantFrom('a', 'b', ''), feature, value: cell, how: cell, u: cell })
      .map((of) =>
        [of.unit, '', '', '', of.feature.slot, of.feature.id, of.value, of.how, of.u, '']
          .map((text) => `"${text.replaceAll('"', '""')}"`)
          .join(','),
      );
    fc.assert(
      fc.property(fc.array(line, { maxLength: 8 }), (lines) => {
        const units = read(...lines);
        expect(units.length).toBeLessThanOrEqual(2 + lines.filter((text) => text.startsWith('""')).length);
        for (const unit of units) {
          if (unit.ok) expect(faultsOfSheet(unit.sheet, known)).toEqual([]);
          else expect(unit.faults.length).toBeGreaterThan(0);
        }
        const entries = units.flatMap((unit) => (unit.ok ? [unit.sheet.observations.length + (unit.sheet.unseen?.length ?? 0)] : []));
        const spoilt = units.some(({ ok }) => !ok);
        if (!spoilt) expect(entries.reduce((sum, n) => sum + n, 0)).toBe(lines.length);
      }),
      { seed: 20261125, numRuns: 300 },
    );
  });
});
