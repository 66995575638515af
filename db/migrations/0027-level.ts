import type { Migration } from './migration.ts';

/** At which level a learner is asked: by eye, or with what instruments read too, as everybody was before there were levels. */
export const level: Migration = {
  number: 27,
  name: 'level',
  sql: `
alter table learners add column level text not null default 'measured' check (level in ('by eye', 'measured'));
`,
};
