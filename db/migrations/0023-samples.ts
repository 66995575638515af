import type { Migration } from './migration.ts';

/**
 * What was seen and measured, in cases, of parts of the atlas. Nothing of it refers to the atlas or to the case, so that neither a pack that is taken out nor a case that is
 * removed takes away what the shop measured. One that was taken out stays, with who took it out.
 */
export const samples: Migration = {
  number: 23,
  name: 'samples',
  sql: `
create table samples (
  id text primary key,
  part text not null,
  slot text not null,
  feature text not null,
  value text not null check (json_valid(value)),
  u real check (u > 0),
  how text not null,
  from_sheet text not null,
  entry text not null,
  case_number text not null,
  kept_at text not null,
  who text not null,
  out_by text,
  at text not null
) without rowid;
create index samples_by_part on samples (part);
create index samples_by_sheet on samples (from_sheet, slot);
`,
};
