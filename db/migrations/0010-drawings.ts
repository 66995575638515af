import type { Migration } from './migration.ts';

/** Which drawing shows the parts of a slot, and from which features (A6). */
export const drawings: Migration = {
  number: 10,
  name: 'drawings',
  sql: `
create table drawings (
  id text primary key,
  slot text not null references slots (id),
  drawing text not null,
  feeds text not null
) without rowid;
`,
};
