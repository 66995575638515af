import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { readSheetTable, type TableUnit, tableColumns } from '../../../db/index.ts';
import { faultsOfSheet } from '../../../db/sheets/check-sheet.ts';
import type { Sheet } from '../../../reasoner/index.ts';
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
    [row('', '(absent)', '', ''), 'slot', 'the slot that holds nothing'],
    [row('', '', '11', 'seen'), 'feature', 'the feature that value is about'],
  ])('[T1] %s: the fault names row and column', (text, column, expected) => {
    const [fault, ...more] = faultsIn(read(text));
    expect(more).toEqual([]);
    expect(fault).toMatchObject({ file: 't.csv', row: 2, column });
    expect(fault?.expected).toContain(expected);
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
    expect(faultsIn(read('a,,Heron,,,,,,,'))).toMatchObject([{ row: 2, column: 'maker' }]);
    expect(faultsIn(read('a,,,,,,,,,,more'))).toMatchObject([{ row: 2, found: '11 cells' }]);
    expect(faultsIn(read(',x,,,,,,,,'))).toMatchObject([{ row: 2, column: 'unit' }]);
    expect(faultsIn(read(`a,${'x'.repeat(301)},,,,,,,,`))[0]?.found).toContain('title');
    expect(faultsIn(read('a,,,,nameplate,(absent),,,,', 'a,,,,nameplate,(absent),,,,'))).toMatchObject([{ row: 3 }]);
  });

  test('another header is one fault; semicolons, a byte order mark, CRLF and empty rows are read', () => {
    expect(readSheetTable('unit,what\na,b', 't.csv', demoAtlas)).toMatchObject([{ source: 't.csv', ok: false, faults: [{ row: 1 }] }]);
    expect(readSheetTable('', 't.csv', demoAtlas)).toMatchObject([{ ok: false }]);
    const text = `\uFEFF${tableColumns.join(';')}\r\nq;;;;turbine wheel;blade count;11;seen;;\r\n;;;;;;;;;\r\n`;
    expect(sheetIn(readSheetTable(text, 't.csv', demoAtlas)).observations).toHaveLength(1);
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
        expect(units.length).toBeLessThanOrEqual(3);
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
