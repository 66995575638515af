import Papa from 'papaparse';
import { expect, test } from 'vitest';
import { type CaseSummary, casesCsv } from '../../../db/index.ts';
import { asId, type SheetId } from '../../../reasoner/index.ts';

const found: CaseSummary = {
  sheet: asId<SheetId>('one'),
  number: '2026-0001',
  openedOn: '2026-03-04',
  savedAt: '2026-03-05T09:30:00.000Z',
  title: 'A Petrel that turns too easily',
  kind: 'found',
  customer: 'Réka, berth 4',
  lookedBy: 'Marit',
  notes: 'Shaft is blue.\r\nAgain.',
  claimed: 'Petrel 2',
  status: 'ruled out',
  honest: ['Petrel', 'Petrel copy'],
  open: ['Skua', 'Skua 1'],
  edition: 'small 2026-03-02',
  observations: 4,
  photos: 2,
  numbers: [
    { says: 'serial number', text: 'H-11 207' },
    { says: 'part number', text: 'AB-1' },
    { says: 'serial number', text: 'S7' },
  ],
  word: { by: 'maker', person: 'Osk', day: '2026-03-10', decision: 'The plate is theirs.', ground: 'their letter' },
};
const planned: CaseSummary = {
  ...found,
  number: '2026-0002',
  title: '=1+1',
  kind: 'planned',
  claimed: null,
  status: null,
  honest: [],
  open: [],
  edition: null,
  numbers: [],
  word: null,
};

test('[P1] cases in a table: a row for each, every column by its heading, and nothing is a formula', () => {
  const text = casesCsv([found, planned]);
  expect(text.split('\r\n')[0]).toMatch(/^number,opened on,last saved,/);
  expect(text.endsWith('\r\n')).toBe(true);
  const [first, second] = Papa.parse<Record<string, string>>(text.trimEnd(), { header: true }).data;
  expect(first).toEqual({
    number: '2026-0001',
    'opened on': '2026-03-04',
    'last saved': '2026-03-05T09:30:00.000Z',
    title: 'A Petrel that turns too easily',
    kind: 'found unit',
    'serial number': 'H-11 207; S7',
    'part number on the plate': 'AB-1',
    customer: 'Réka, berth 4',
    'looked by': 'Marit',
    'claimed name': 'Petrel 2',
    'status of the claim': 'ruled out',
    'honest names': 'Petrel; Petrel copy',
    'open names': 'Skua; Skua 1',
    atlas: 'small 2026-03-02',
    entries: '4',
    photographs: '2',
    notes: 'Shaft is blue.\r\nAgain.',
    'decided beside the verdict': expect.stringMatching(/maker/i),
    'decided by, or told by': 'Osk',
    'decided on': '2026-03-10',
    decision: 'The plate is theirs.',
    ground: 'their letter',
  });
  const empty = Object.entries(second ?? {}).flatMap(([heading, value]) => (value === '' ? [heading] : []));
  expect(empty).toEqual([
    'serial number',
    'part number on the plate',
    'claimed name',
    'status of the claim',
    'honest names',
    'open names',
    'atlas',
    'decided beside the verdict',
    'decided by, or told by',
    'decided on',
    'decision',
    'ground',
  ]);
  expect(second).toMatchObject({ title: "'=1+1", kind: 'planned build' });
});
