import fc from 'fast-check';
import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { csvPlacesIn } from '../../../db/read/csv-places.ts';

const text = ['id,name,source', 'a,"one, ""two""\nthree",book', 'b,"x', 'y', 'z",', 'c,,d'].join('\n');

test('[P4] a cell is found in its line and character, though cells before it break over lines', () => {
  const places = csvPlacesIn(text, '\n');
  const at = (row: number, cell: number | null) => {
    const found = places.at(row, cell);
    return found === null ? null : [found.line, found.character];
  };
  expect([at(1, 0), at(1, 1), at(1, 2)]).toEqual([
    [1, 1],
    [1, 4],
    [1, 9],
  ]);
  expect([at(2, 0), at(2, 1), at(2, 2)]).toEqual([
    [2, 1],
    [2, 3],
    [3, 8],
  ]);
  expect([at(3, null), at(3, 2)]).toEqual([
    [4, 1],
    [6, 4],
  ]);
  expect([at(4, 1), at(4, 2)]).toEqual([
    [7, 3],
    [7, 4],
  ]);
  expect([at(4, 3), at(5, 0), at(0, 0)]).toEqual([null, null, null]);
});

test('[P4] wherever a table breaks its lines, a plain cell stands where it is said to', () => {
  const cell = fc.stringMatching(/^[a-z ,"\n]{0,6}$/);
  const tables = fc.array(fc.tuple(cell, cell, cell), { minLength: 1, maxLength: 5 });
  fc.assert(
    fc.property(tables, fc.constantFrom('\n', '\r\n'), (cells, newline) => {
      const written = Papa.unparse(cells as unknown as string[][], { newline });
      const places = csvPlacesIn(written, newline);
      const lines = written.split('\n');
      cells.forEach((row, r) => {
        row.forEach((value, c) => {
          const { line, character } = places.at(r + 1, c) ?? { line: 0, character: 0 };
          const rest = (lines[line - 1] ?? '').slice(character - 1);
          const shown = Papa.unparse([[value]], { newline }).split('\n')[0] as string;
          expect(rest.startsWith(shown.replace(/\r$/, ''))).toBe(true);
        });
      });
    }),
    { seed: 20261129, numRuns: 200 },
  );
});
