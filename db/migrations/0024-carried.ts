import type { Migration } from './migration.ts';

/**
 * What of the shop's own went from one id of the atlas to another with a change (`entry`, the first of its entries), so that undoing it takes back just that: `moved`, row by
 * row; `there`, what stood under the other id already; `seen`, what was said of it.
 */
export const carried: Migration = {
  number: 24,
  name: 'carried',
  sql: `
create table journal_carried (
  entry integer not null references journal (n),
  turn integer not null,
  list text not null,
  from_id text not null,
  to_id text not null,
  moved text not null check (json_valid(moved)),
  there text not null check (json_valid(there)),
  seen text not null check (json_valid(seen)),
  primary key (entry, turn)
) without rowid;
`,
};
