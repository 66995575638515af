import type { SheetId } from '../ids.ts';
import type { Sheet } from '../sheet/sheet.ts';

/** A unit as found of which nothing was entered yet. */
export const blankSheet = (id: SheetId): Sheet => ({
  id,
  title: '',
  story: '',
  kind: 'found',
  claimed: null,
  claimedMaker: null,
  observations: [],
  absent: [],
  chosen: {},
});
