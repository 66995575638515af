import { expect, test } from 'vitest';
import { fileNameOf } from '../../../renderer/bench/fileNameOf.ts';

test('[W1] a file is named by the case’s number and the title in letters every system takes; without either it is a sheet', () => {
  const title = '  Petrel 13: “as new”?/..\\ Órla ';
  expect(fileNameOf({ title }, 'pdf', 'A-2026-0007')).toBe('A-2026-0007-petrel-13-as-new-o-rla.pdf');
  expect(fileNameOf({ title: '?!' }, 'pdf', 'A-2026-0007')).toBe('A-2026-0007.pdf');
  expect(fileNameOf({ title: '?!' }, 'pdf', null)).toBe('sheet.pdf');
  expect(fileNameOf({ title: 'Ten or eleven' })).toBe('ten-or-eleven.json');
});
