import writeExcelFile from 'write-excel-file/node';
import { csvOf } from '../shop/csv.ts';
import type { TableOut } from './bring-out.ts';

/** A table as CSV, as every CSV of this program that is read in a spreadsheet: no cell of it is a formula. */
export const tableCsv = ({ headings, rows }: TableOut): string => csvOf(headings, rows);

const widest = 40;

/**
 * A table as a workbook of one sheet: texts as texts, which no spreadsheet makes a date or a number of, and sizes as numbers. The headings stay in sight, and the last
 * column, which is not for reading, is hidden.
 */
export const tableXlsx = ({ title, headings, rows }: TableOut): Promise<Buffer> => {
  const last = headings.length;
  const widths = headings.map((heading, at) =>
    Math.min(widest, Math.max(8, heading.length, ...rows.slice(0, 200).map((row) => String(row[at] ?? '').length)) + 2),
  );
  return writeExcelFile(
    [
      headings.map((heading) => ({ value: heading, type: String, fontWeight: 'bold' as const })),
      ...rows.map((row) =>
        row.map((cell) =>
          cell === '' ? null : typeof cell === 'number' ? { value: cell, type: Number } : { value: cell, type: String, format: '@' },
        ),
      ),
    ],
    { sheet: title, columns: widths.map((width, at) => ({ width: at === last - 1 ? 10 : width })), stickyRowsCount: 1 },
    {
      features: [
        {
          files: {
            transform: {
              'xl/worksheets/sheet{id}.xml': {
                transformElementAttributes: (tag, attributes) =>
                  tag === 'col' && Number(attributes.min) === last ? { ...attributes, hidden: 1 } : attributes,
              },
            },
          },
        },
      ],
    },
  ).toBuffer();
};
