import type { Migration } from './migration.ts';

/**
 * Each letter counts its own numbers in a year. Until now a year had one count for all letters. Of each letter the highest number a case has is known; a number no case has is a removed one's, and nothing
 * says with which letter: every letter goes on after the highest of those. The counter itself goes on after those it gave before counters had letters.
 *
 * Rows of `cases` stand as they stood, column by column, so that those of a file from before are read alike when it is mended; what was counted by the year alone has another name for the same reason.
 * The index of numbers holds the letter too, and has a name of its own.
 */
export const lettersCount: Migration = {
  number: 28,
  name: 'letters count',
  sql: `
-- The last number given under a letter in a year. Rows only grow, so that the number of a case that was removed is never given again.
create table case_counts (
  letter text not null check (letter = '' or letter glob '[A-HJ-NP-Z]'),
  year integer not null,
  last integer not null check (last >= 1),
  primary key (letter, year)
) without rowid;

insert into case_counts (letter, year, last)
  with letters (letter) as (
    values ('A'), ('B'), ('C'), ('D'), ('E'), ('F'), ('G'), ('H'), ('J'), ('K'), ('L'), ('M'), ('N'), ('P'), ('Q'), ('R'), ('S'), ('T'), ('U'), ('V'), ('W'), ('X'), ('Y'), ('Z')
  ),
  highest (letter, year, number) as (select letter, year, max(number) from cases group by letter, year),
  removed (year, number) as (
    select n.year, case
      when not exists (select 1 from cases c where c.year = n.year and c.number = n.last) then n.last
      else coalesce((
        select max(c.number - 1) from cases c
        where c.year = n.year and c.number > 1 and not exists (select 1 from cases b where b.year = c.year and b.number = c.number - 1)
      ), 0)
    end
    from case_numbers n
  ),
  counted (letter, year, last) as (
    select letter, year, number from highest
    union all select l.letter, r.year, r.number from letters l join removed r
    union all select coalesce((select value ->> '$.letter' from shop_settings where key = 'counter'), 'A'), year, number from highest where letter = ''
  )
  select letter, year, max(last) from counted where last > 0 group by letter, year;

create table cases_before as select * from cases;
drop table cases;
create table cases (
  sheet text primary key,
  year integer not null,
  number integer not null,
  opened_on text not null check (opened_on glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  letter text not null default '' check (letter = '' or letter glob '[A-HJ-NP-Z]'),
  foreign key (letter, year) references case_counts (letter, year)
) without rowid;
insert into cases (sheet, year, number, opened_on, letter) select sheet, year, number, opened_on, letter from cases_before;
drop table cases_before;
drop table case_numbers;
create unique index cases_by_number on cases (letter, year, number);

-- A number that came with a case is looked up before one is given.
create index case_origins_by_number on case_origins (number);
`,
};
