import type { Migration } from './migration.ts';

/** What the shop or the maker decided of a unit, beside the verdict. Every saying is kept: the last row is what holds, and one without words takes back what held. */
export const shopWord: Migration = {
  number: 15,
  name: 'the shop’s own word',
  sql: `
create table case_words (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null check (n >= 1),
  at text not null,
  who text not null,
  decided_by text check (decided_by in ('shop', 'maker')),
  person text,
  day text check (day glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  decision text,
  ground text,
  primary key (sheet, n),
  check (
    decided_by is not null and person is not null and day is not null and decision is not null and ground is not null
    or coalesce(decided_by, person, day, decision, ground) is null
  )
) without rowid;
`,
};
