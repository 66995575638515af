import type { Migration } from './migration.ts';

/** The words of the trade, each with what it means (A8). */
export const terms: Migration = {
  number: 13,
  name: 'terms',
  sql: `
create table terms (
  id text primary key,
  name text not null,
  also_called text check (also_called is null or json_valid(also_called)),
  short text not null,
  more text not null,
  drawn text check (drawn is null or json_valid(drawn)),
  near text check (near is null or json_valid(near)),
  everyday integer check (everyday is null or everyday = 1)
) without rowid;
`,
};
