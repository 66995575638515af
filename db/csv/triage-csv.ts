import Papa from 'papaparse';
import type { Triage, TriageRow } from '../../reasoner/index.ts';
import { guarded } from './guarded.ts';

const columns: readonly (readonly [heading: string, of: (row: TriageRow, index: number) => string | number])[] = [
  ['place', (_, index) => index + 1],
  ['standing', ({ standing }) => standing],
  ['title', ({ title }) => title],
  ['claimed', ({ claimed }) => claimed ?? ''],
  ['members of the shortest reason', ({ plainness }) => plainness?.members ?? ''],
  ['minutes of strip-down', ({ plainness }) => plainness?.minutes ?? ''],
  ['reasons that share no entry', ({ plainness }) => plainness?.reasons ?? ''],
  ['why', ({ sentences }) => sentences.join(' ')],
  ['may be described as', ({ may }) => may ?? ''],
  ['source', ({ source }) => source],
];

/** A triage as CSV per RFC 4180, a heading row first, the cautions as rows of their own at the end; no cell is a formula. */
export const triageCsv = ({ rows, cautions }: Triage): string =>
  `${Papa.unparse(
    {
      fields: columns.map(([heading]) => heading),
      data: [
        ...rows.map((row, index) => columns.map(([, of]) => guarded(of(row, index)))),
        ...cautions.map((caution) =>
          columns.map(([heading]) => (heading === 'standing' ? 'caution' : heading === 'why' ? guarded(caution) : '')),
        ),
      ],
    },
    { newline: '\r\n' },
  )}\r\n`;
