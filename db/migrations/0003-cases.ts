import type { Migration } from './migration.ts';

/**
 * Cases: every own sheet gets a number, what the shop writes beside it, photographs, and an entry for each state it was saved in.
 *
 * Sheets saved before this have a case from the day they were last saved, and no entries: what was said of them then was not kept.
 */
export const cases: Migration = {
  number: 3,
  name: 'cases',
  sql: `
-- The last number given in each year. Rows only grow, so that the number of a case that was removed is never given again.
create table case_numbers (
  year integer primary key,
  last integer not null check (last >= 1)
) without rowid;

create table cases (
  sheet text primary key,
  year integer not null references case_numbers (year),
  number integer not null,
  opened_on text not null check (opened_on glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  unique (year, number)
) without rowid;

-- What is written beside the sheet, each version kept: the last row is what holds now.
create table case_details (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  at text not null,
  customer text not null,
  looked_by text not null,
  notes text not null,
  primary key (sheet, n)
) without rowid;

-- One row for each state a sheet was saved in, with its verdict.
create table case_entries (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  at text not null,
  who text not null,
  edition text not null,
  body text not null check (json_valid(body)),
  verdict text not null check (json_valid(verdict)),
  claim_status text check (claim_status in ('ruled out', 'open', 'stands')),
  primary key (sheet, n)
) without rowid;

-- A picture is stored once, by the SHA-256 of its bytes, whichever cases it is in.
create table photos (
  id text primary key check (length(id) = 64),
  type text not null check (type in ('image/jpeg', 'image/png', 'image/webp')),
  width integer not null check (width > 0),
  height integer not null check (height > 0),
  size integer not null check (size = length(bytes)),
  bytes blob not null,
  thumbnail_type text not null check (thumbnail_type in ('image/jpeg', 'image/png', 'image/webp')),
  thumbnail blob not null
);

create table case_photos (
  sheet text not null references cases (sheet) on delete cascade,
  photo text not null references photos (id),
  added_at text not null,
  caption text not null,
  about_slot text,
  about_observation text,
  primary key (sheet, photo),
  check (about_slot is null or about_observation is null)
) without rowid;
create index case_photos_by_photo on case_photos (photo);

-- A case goes with its sheet, and a picture with the last case it is in. (Own sheets alone have cases; a sample of the same id stays.)
create trigger sheets_delete_case after delete on sheets when old.origin = 'own' begin
  delete from cases where sheet = old.id;
end;
create trigger case_photos_delete_photo after delete on case_photos
when not exists (select 1 from case_photos where photo = old.photo) begin
  delete from photos where id = old.photo;
end;

insert into case_numbers (year, last)
  select cast(substr(saved_at, 1, 4) as integer), count(*) from sheets where origin = 'own' group by 1;
insert into cases (sheet, year, number, opened_on)
  select id, cast(substr(saved_at, 1, 4) as integer),
    row_number() over (partition by substr(saved_at, 1, 4) order by saved_at, id), substr(saved_at, 1, 10)
  from sheets where origin = 'own';
insert into case_details (sheet, n, at, customer, looked_by, notes)
  select id, 1, saved_at, '', '', '' from sheets where origin = 'own';
`,
};
