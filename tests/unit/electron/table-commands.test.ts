import { readFile, writeFile } from 'node:fs/promises';
import path from 'node:path';
import { beforeEach, describe, expect, test } from 'vitest';
import { filledStore, freshFolder, smallPack, valueIn } from '../db/kit.ts';
import { kinplateRun } from './kinplate-run.ts';

describe('a spreadsheet from a script', () => {
  let data: string;
  const run = (...args: string[]) => kinplateRun([...args, '--data', data], { shipped: smallPack });
  const file = (name: string) => path.join(data, name);
  beforeEach(async () => {
    data = freshFolder();
    const store = await filledStore({ file: path.join(data, 'atlas.sqlite') });
    await store.close();
  });

  test('[I4] table look names every cell that cannot be read and changes nothing; table bring refuses it whole, or leaves its row out', async () => {
    await writeFile(
      file('list.csv'),
      'Part No;Type;Make;blade count\r\nGALE 1;compressor wheel;none;7\r\nGALE 2;compressor wheel;Nobody;7\r\n',
    );
    const looked = await run('table', 'look', file('list.csv'));
    expect(looked.code).toBe(65);
    expect(looked.out).toMatch(/^A\tPart No\tpart numbers\t“Part No” says so\.$/m);
    expect(looked.out).toContain('2 rows: 1 new, 0 altered, 0 as the atlas has them, 1 with a cell that cannot be read.');
    expect(looked.out).toMatch(/^C3 \(Make\): Found "Nobody", expected a maker of the atlas/m);
    expect(looked.out).toMatch(/^It would change parts: 1 added/m);
    const refused = await run('table', 'bring', file('list.csv'));
    expect([refused.code, refused.err]).toEqual([65, expect.stringMatching(/^Nothing was brought in\./)]);
    const brought = await run('table', 'bring', file('list.csv'), '--leave-faulty', '--who', 'Ines', '--format', 'json');
    expect([brought.code, JSON.parse(brought.out)]).toEqual([
      0,
      expect.objectContaining({ change: expect.any(Number), rows: expect.objectContaining({ added: 1, faulty: 1 }) }),
    ]);
    // The mended cell is said by its row and column, in a file.
    await writeFile(file('mended.json'), JSON.stringify({ cells: { '3:2': 'none' }, confirmed: [], left: [], makers: [] }));
    const again = await run('table', 'bring', file('list.csv'), '--mended', file('mended.json'));
    expect([again.code, again.out]).toEqual([0, expect.stringMatching(/^2 rows: 1 new, 0 altered, 1 as the atlas has them/)]);
    expect((await run('table', 'bring', file('list.csv'), '--mended', file('mended.json'))).out).toBe(
      'Nothing in it is otherwise than the atlas has it.\n',
    );
  });

  test('[I5] table write and table bring: one cell that was edited is one cell that is changed', async () => {
    expect((await run('table', 'write', file('out.xlsx'))).code).toBe(0);
    expect((await run('table', 'bring', file('out.xlsx'))).out).toBe('Nothing in it is otherwise than the atlas has it.\n');
    expect((await run('table', 'write', file('out.csv'), '--slot', 'compressor-wheel')).code).toBe(0);
    const text = await readFile(file('out.csv'), 'utf8');
    const rows = text.split('\r\n').map((row) => row.split(','));
    const column = rows[0]?.findIndex((heading) => /blade count/.test(heading)) ?? -1;
    const at = rows.findIndex((row, index) => index > 0 && /^\d+$/.test(row[column] ?? ''));
    (rows[at] as string[])[column] = '9';
    await writeFile(file('out.csv'), rows.map((row) => row.join(',')).join('\r\n'));
    const looked = JSON.parse((await run('table', 'look', file('out.csv'), '--format', 'json')).out);
    expect(looked.counts).toMatchObject({ added: 0, altered: 1, faulty: 0 });
    expect(looked.change.cells.filter((cell: { list: string }) => cell.list === 'parts')).toEqual([
      expect.objectContaining({ field: 'facts', line: 'cw-blades', after: expect.objectContaining({ from: 9, to: 9 }) }),
    ]);
  });

  test('[I2] what a script says otherwise holds: a file of the matching, headings, slot and maker; what is not there is named', async () => {
    await writeFile(file('bare.csv'), 'GALE 3,7\n');
    await writeFile(
      file('matching.json'),
      JSON.stringify({
        kind: 'parts',
        sheet: null,
        headings: 0,
        columns: [{ is: 'numbers' }, { is: 'figure', features: ['cw-blades'], part: 'size', unit: null, within: null }],
        slot: 'compressor-wheel',
        maker: 'none',
      }),
    );
    expect((await run('table', 'look', file('bare.csv'), '--matching', file('matching.json'))).out).toContain('1 row: 1 new');
    for (const [args, expected] of [
      [['--slot', 'flywheel'], /no slot “flywheel”/],
      [['--maker', 'Nobody'], /no maker “Nobody”/],
      [['--template', 'none such'], /kept under the name “none such”/],
      [['--sheet', 'Third'], /has no sheet “Third”/],
      [['--headings', 'x'], /takes the number of a row/],
      [['--mended', file('bare.csv')], /bare\.csv, row 1: found "GALE", expected JSON, with a value here\./],
    ] as const) {
      const so = await run('table', 'look', file('bare.csv'), ...args);
      expect([so.code === 0, so.err]).toEqual([false, expect.stringMatching(expected)]);
    }
    expect((await run('table', 'write', file('out.ods'))).err).toContain('name the file so');
  });

  test('[I2] a matching that was kept is taken where its headings are, wherever they stand', async () => {
    const store = await filledStore({ file: path.join(data, 'atlas.sqlite') }).catch(() => null);
    if (store === null) throw new Error('the atlas did not open');
    const matching = {
      kind: 'parts',
      sheet: null,
      headings: 1,
      columns: [{ is: 'numbers' }, { is: 'ignored' }, { is: 'figure', features: ['cw-blades'], part: 'size', unit: null, within: null }],
      slot: 'compressor-wheel',
      maker: 'none',
    } as never;
    valueIn(await store.templates.keep({ name: 'the old list', headings: ['Ref', 'Remark', 'Vanes'], matching }));
    expect(valueIn(await store.templates.list())).toEqual([{ name: 'the old list', headings: ['Ref', 'Remark', 'Vanes'], matching }]);
    await store.close();
    await writeFile(file('old.csv'), 'VANES,anything,ref\n7,x,GALE 4\n');
    const looked = await run('table', 'look', file('old.csv'));
    expect([looked.code, looked.out]).toEqual([0, expect.stringMatching(/^Read as it is kept in “the old list”\./)]);
    expect(looked.out).toContain('1 row: 1 new');
    await writeFile(file('other.csv'), 'anything,ref\nx,GALE 4\n');
    expect((await run('table', 'look', file('other.csv'))).out).not.toContain('the old list');
  });
});
