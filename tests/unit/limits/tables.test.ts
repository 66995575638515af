import { describe, expect, test } from 'vitest';
import { limits } from '../../../reasoner/plain/limits.ts';
import { demoAtlas } from '../seed/demo-atlas.ts';
import { growthOf, mostGrowth, workOf } from './work-of.ts';

const work = await workOf(() => import('../../../db/sheets/read-sheet-table.ts'));

const header = 'unit,title,maker,claimed,slot,feature,value,how,u,note';
const tables: readonly (readonly [string, (i: number) => string])[] = [
  ['all of one unit', () => 'q,,,,turbine wheel,blade count,11,seen,,'],
  ['each of a unit of its own', (i) => `q${i},,,,turbine wheel,blade count,11,seen,,`],
  ['one feature unseen, over and over', () => 'q,,,,turbine wheel,blade count,?,,,'],
  ['one slot absent, over and over', () => 'q,,,,nameplate,(absent),,,,'],
  ['each with another claim', (i) => `q,t${i},m${i},c${i},,,,,,`],
  ['each with a feature nobody knows', (i) => `q${i % 7},,,,turbine wheel,f${i},11,seen,,`],
  ['each cut short', () => 'q,,,'],
  ['each badly quoted', () => '"q"x,,,,,,,,,'],
  ['with nothing in them', () => ',,,,,,,,,'],
];

describe('a table of sheets', () => {
  test.each(tables)('[R6] twice the rows %s take at most 2.3 times the work', (_, row) => {
    const of = (rows: number) => {
      const text = [header, ...Array.from({ length: rows }, (_none, i) => row(i))].join('\n');
      return work(({ readSheetTable }) => readSheetTable(text, 't.csv', demoAtlas));
    };
    expect(of(1000)).toBeGreaterThan(1000);
    expect(growthOf(of, 1000)).toBeLessThan(mostGrowth);
  });

  const read = (text: string) => {
    let units: ReturnType<typeof import('../../../db/sheets/read-sheet-table.ts')['readSheetTable']> = [];
    const looked = work(({ readSheetTable }) => {
      units = readSheetTable(text, 't.csv', demoAtlas);
    });
    return { units, looked };
  };

  test('[R6] a unit of more rows than a sheet has room for is refused by its first row too many; other units are read', () => {
    const rows = (many: number) => [
      header,
      'r,,,,turbine wheel,blade count,11,seen,,',
      ...Array<string>(many).fill('q,,,,nameplate,(absent),,,,'),
    ];
    const { units } = read(rows(limits.unitRows + 1).join('\n'));
    expect(units.map(({ source, ok }) => [source, ok])).toEqual([
      ['t.csv, unit r', true],
      ['t.csv, unit q', false],
    ]);
    expect(units[1]).toMatchObject({
      faults: [
        {
          sentence: `t.csv, row ${limits.unitRows + 3}: found ${limits.unitRows + 1} rows of unit "q", expected ${limits.unitRows} at most.`,
        },
      ],
    });
    const [, full] = read(rows(limits.unitRows).join('\n')).units;
    expect(full).toMatchObject({ faults: expect.arrayContaining([expect.objectContaining({ found: 'the same slot empty twice' })]) });
  });

  test('[R6] a table that is too long is refused before a character of it is looked at', () => {
    const line = 'q,,,,turbine wheel,blade count,11,seen,,\n';
    const { units, looked } = read(`${header}\n${line.repeat(Math.ceil(limits.tableLetters / line.length))}`);
    expect(units).toHaveLength(1);
    expect(units[0]).toMatchObject({ source: 't.csv', ok: false, faults: [{ expected: '12000000 at most' }] });
    expect(looked).toBeLessThan(1000);
  });
});
