import type { Migration } from './migration.ts';

/**
 * The shop's own words (H1). What it enters that no pack has stands in a pack of its own (`own`); where it says otherwise than a pack, the tables of the atlas hold its word,
 * and `own_words` keeps both: a text of JSON each, null for nothing. Entries of the journal that are one change say so by the first of them (`together`); one that undoes
 * another says which (`undoes`).
 */
export const ownWords: Migration = {
  number: 19,
  name: 'own words',
  sql: `
alter table packs add column own integer not null default 0 check (own in (0, 1));
alter table journal add column together integer;
alter table journal add column undoes integer;
create index journal_by_undoes on journal (undoes);

create table own_words (
  pack text not null references packs (id),
  cell text not null,
  own text,
  said text,
  primary key (pack, cell),
  check (own is not said)
) without rowid;
`,
};
