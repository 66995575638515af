import type { Migration } from './migration.ts';

/**
 * What entry needs of the atlas: other words for slots and features, what a plate's features say, how makers make their numbers, and
 * the shop's instruments with how far off a reading may be.
 */
export const entry: Migration = {
  number: 4,
  name: 'entry',
  sql: `
alter table slots add column also_called text check (also_called is null or json_valid(also_called));
alter table features add column also_called text check (also_called is null or json_valid(also_called));
alter table features add column says text check (says in ('part number', 'serial number', 'trade name', 'year of make'));
alter table makers add column numbering text check (numbering is null or json_valid(numbering));

create table pack_terms_wider (
  pack text not null references packs (id),
  kind text not null check (kind in ('source', 'stage', 'slot', 'port', 'feature', 'joint', 'metal', 'operation', 'chain', 'warmth', 'instrument')),
  id text not null,
  position integer not null,
  primary key (pack, kind, id)
) without rowid;
insert into pack_terms_wider select pack, kind, id, position from pack_terms;
drop table pack_terms;
alter table pack_terms_wider rename to pack_terms;
create index pack_terms_by_id on pack_terms (kind, id);

create table instruments (
  id text primary key,
  name text not null,
  also_called text check (also_called is null or json_valid(also_called)),
  unit text not null check (unit in ('mm', 'deg')),
  resolution real not null check (resolution > 0),
  u real not null check (u > 0),
  basis text not null,
  source text not null references sources (id)
) without rowid;
`,
};
