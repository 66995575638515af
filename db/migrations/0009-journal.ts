import type { Migration } from './migration.ts';

/**
 * Every change of the atlas, one after the other (H2, H4). Each entry is named by the hash of the one before and of its effect, so that one who
 * writes on what is no longer the last is refused by the table itself. Effects come in pieces: that of a large pack is longer than one text may be.
 * Which packs hold a shared entry says no more which lists are shared, so that a new list needs no change here.
 */
export const journal: Migration = {
  number: 9,
  name: 'journal',
  sql: `
create table journal (
  n integer primary key,
  id text not null unique,
  parent text not null unique,
  at text not null,
  kind text not null,
  origin text not null,
  who text,
  why text,
  source text,
  cells integer not null check (cells >= 0),
  check (id <> parent)
);
create table journal_effects (
  entry integer not null references journal (n),
  piece integer not null,
  body blob not null,
  primary key (entry, piece)
) without rowid;

-- SHA-256 of what is reasoned over of the pack; null where it was loaded before this was kept.
alter table packs add column content text;

create table pack_terms_any (
  pack text not null references packs (id),
  kind text not null,
  id text not null,
  position integer not null,
  primary key (pack, kind, id)
) without rowid;
insert into pack_terms_any select pack, kind, id, position from pack_terms;
drop table pack_terms;
alter table pack_terms_any rename to pack_terms;
create index pack_terms_by_id on pack_terms (kind, id);
`,
};
