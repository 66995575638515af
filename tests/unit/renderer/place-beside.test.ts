import { expect, test } from 'vitest';
import { placeBeside } from '../../../renderer/look/placeBeside.ts';

const at = (place: string | null, sentence: string) => placeBeside({ code: 'x', place, sentence });

test('[R4] a place stands behind a sentence only where the sentence does not name it, whole or by its id', () => {
  expect(at(null, 'It is gone.')).toBeNull();
  expect(at('/srv/atlas.sqlite', 'The atlas file is damaged: /srv/atlas.sqlite')).toBeNull();
  expect(at('sheet s-1', 'The sheet "s-1" was changed elsewhere.')).toBeNull();
  expect(at('parts/cw-9', 'part “cw-9” was changed later.')).toBeNull();
  expect(at('sheet s-1', 'The sheet was changed elsewhere.')).toBe('sheet s-1');
  expect(at('/srv/atlas.sqlite', 'The atlas file is damaged.')).toBe('/srv/atlas.sqlite');
  expect(at('a.csv, row 3, column value', 'The value is none.')).toBe('a.csv, row 3, column value');
});
