import type { Migration } from './migration.ts';

/**
 * The numbers stamped on the unit of a case, by which it is found when it comes back; the numbers a case had in other shops; and where a case was left as it was told
 * although a newer atlas would say otherwise.
 *
 * `key` is what a number is compared by, and is made by the program. Of sheets saved before this it is null: the text is compared as it is read.
 */
export const unitNumbers: Migration = {
  number: 16,
  name: 'numbers of units',
  sql: `
create table unit_numbers (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  says text not null check (says in ('serial number', 'part number')),
  text text not null,
  key text,
  primary key (sheet, n)
) without rowid;
create index unit_numbers_by_key on unit_numbers (key);

create table case_origins (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  number text not null,
  at text not null,
  who text not null,
  primary key (sheet, n)
) without rowid;

-- Left as told: the entry that was told, and the version of what would have been said in its place.
create table cases_left (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  at text not null,
  who text not null,
  reason text not null,
  entry integer not null,
  otherwise text not null,
  primary key (sheet, n)
) without rowid;

insert into unit_numbers (sheet, n, says, text, key)
  select s.id, row_number() over (partition by s.id order by o.key), f.says, o.value ->> '$.value.text', null
  from sheets s
  join cases c on c.sheet = s.id
  join json_each(s.body, '$.observations') o
  join features f on f.id = o.value ->> '$.feature'
  where s.origin = 'own' and f.says in ('serial number', 'part number')
    and o.value ->> '$.sure.kind' = 'seen' and o.value ->> '$.value.text' is not null;
`,
};
