import type { Sheet } from '../../reasoner/index.ts';
import type * as t from '../schema.ts';

type SheetRow = typeof t.sheets.$inferInsert;

const columnsOf = (sheet: Sheet) => ({
  id: sheet.id,
  title: sheet.title,
  kind: sheet.kind,
  claimed: sheet.claimed,
  observations: sheet.observations.length,
  body: JSON.stringify(sheet),
});

export const sampleRow = (sheet: Sheet, pack: string, position: number): SheetRow => ({
  ...columnsOf(sheet),
  origin: 'sample',
  pack,
  position,
  savedAt: null,
});

/** `savedAt` is an ISO time. */
export const ownRow = (sheet: Sheet, savedAt: string): SheetRow => ({
  ...columnsOf(sheet),
  origin: 'own',
  pack: null,
  position: 0,
  savedAt,
});
