import type { Migration } from './migration.ts';

/** Who wrote on a case, so that whoever writes at the same time is told whose words are there. Of what was written before, nobody said. */
export const whoDescribed: Migration = {
  number: 17,
  name: 'who described a case',
  sql: `
alter table case_details add column who text not null default '';
`,
};
