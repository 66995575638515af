import type { Migration } from './migration.ts';

/**
 * The letter of the counter a case was opened at, which stands in its number; empty of a case that got its number before counters had letters. The index says it of a row whose own page
 * can no longer be read.
 */
export const counterLetter: Migration = {
  number: 26,
  name: 'counter letter',
  sql: `
alter table cases add column letter text not null default '' check (letter = '' or letter glob '[A-HJ-NP-Z]');
create index cases_by_letter on cases (letter);
`,
};
