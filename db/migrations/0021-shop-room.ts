import type { Migration } from './migration.ts';

/**
 * What the shop says of itself (letterhead, money, how measures are written, who works here), what lies on its shelves, what it asks for a part, and the papers it
 * keeps beside sources and parts.
 *
 * Lines of stock and prices are kept in every state they had, the last of which holds; nothing of them refers to the atlas, so that a pack that is taken out takes
 * nothing of the shop's with it. No price is null, never 0. A file is kept once, by the SHA-256 of its bytes; what names it may outlive it in a damaged atlas.
 */
export const shopRoom: Migration = {
  number: 21,
  name: 'settings, stock, prices and papers',
  sql: `
create table shop_settings (
  key text primary key,
  value text not null check (json_valid(value)),
  at text not null,
  who text not null
) without rowid;

create table kept_files (
  id text primary key check (length(id) = 64),
  type text not null,
  size integer not null check (size = length(bytes)),
  bytes blob not null
);

create table documents (
  about text not null check (about in ('source', 'part')),
  of text not null,
  file text not null,
  n integer not null,
  name text not null,
  title text not null,
  at text not null,
  who text not null,
  primary key (about, of, file)
) without rowid;
create index documents_by_file on documents (file);

create table stock (
  line text not null,
  n integer not null,
  at text not null,
  who text not null,
  gone integer not null check (gone in (0, 1)),
  part text,
  words text not null,
  number text not null,
  many integer not null check (many >= 0),
  condition text not null,
  price real check (price > 0),
  money text,
  place text not null,
  note text not null,
  primary key (line, n),
  check ((price is null) = (money is null))
) without rowid;
create index stock_by_part on stock (part);

create table shop_prices (
  part text not null,
  n integer not null,
  at text not null,
  who text not null,
  price real check (price > 0),
  money text,
  note text not null,
  primary key (part, n),
  check ((price is null) = (money is null))
) without rowid;

-- A file goes with the last that names it.
create trigger documents_drop_file after delete on documents begin
  delete from kept_files where id = old.file
    and not exists (select 1 from documents where file = old.file)
    and not exists (select 1 from shop_settings where value ->> '$.logo.file' = old.file);
end;
create trigger shop_settings_drop_file after update of value on shop_settings
when old.value ->> '$.logo.file' is not new.value ->> '$.logo.file' begin
  delete from kept_files where id = old.value ->> '$.logo.file'
    and not exists (select 1 from documents where file = old.value ->> '$.logo.file')
    and not exists (select 1 from shop_settings where value ->> '$.logo.file' = old.value ->> '$.logo.file');
end;
`,
};
