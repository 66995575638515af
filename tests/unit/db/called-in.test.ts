import { describe, expect, test } from 'vitest';
import { keyOf } from '../../../db/atlas/cell.ts';
import type { Effect } from '../../../db/changes/change.ts';
import { alteredIn } from '../../../db/edits/called-in.ts';

const said = (is: string | true) => ({ before: null, after: { is } });

describe('what a change altered, as far as a line of the history goes', () => {
  const effect: Effect = new Map([
    [keyOf('sources', 'case-7'), said(true)],
    [keyOf('sources', 'case-7', 'title'), said('Case 7')],
    [keyOf('allowed', 'mizzle-3', 'wheel'), said('names')],
    [keyOf('models', 'mizzle-3', 'name'), said('Mizzle 3')],
    [keyOf('parts', 'wheel', 'facts', 'blades'), said('9')],
    [keyOf('pack', 'edition'), said('2026-11-29')],
  ]);

  test('[H2] each entry once, by what the change calls it, the sources last; the head of a pack is none', () => {
    expect(alteredIn([effect], 9)).toEqual({
      of: [
        { list: 'models', id: 'mizzle-3', name: 'Mizzle 3' },
        { list: 'parts', id: 'wheel', name: null },
        { list: 'sources', id: 'case-7', name: 'Case 7' },
      ],
      ofInAll: 3,
    });
  });

  test('[H2] as many as are wanted are named, and all are counted', () => {
    expect(alteredIn([effect, new Map([[keyOf('makers', 'drizzle'), { before: { is: true }, after: null }]])], 2)).toMatchObject({
      of: [{ id: 'mizzle-3' }, { id: 'wheel' }],
      ofInAll: 4,
    });
  });
});
