import type { Migration } from './migration.ts';

/**
 * What a shop can do and what it charges (F2, F4): operations, chains of lengths, metals, what runs warm, rates. Remarks of features. And the fits of
 * the atlas as edges, kept by what the joints read of the parts.
 */
export const shop: Migration = {
  number: 2,
  name: 'shop',
  sql: `
alter table features add column remarks text check (remarks is null or json_valid(remarks));

create table pack_terms_wider (
  pack text not null references packs (id),
  kind text not null check (kind in ('source', 'stage', 'slot', 'port', 'feature', 'joint', 'metal', 'operation', 'chain', 'warmth')),
  id text not null,
  position integer not null,
  primary key (pack, kind, id)
) without rowid;
insert into pack_terms_wider select pack, kind, id, position from pack_terms;
drop table pack_terms;
alter table pack_terms_wider rename to pack_terms;
create index pack_terms_by_id on pack_terms (kind, id);

create table metals (
  id text primary key,
  name text not null,
  expansion real not null,
  disc text check (disc is null or json_valid(disc)),
  source text not null references sources (id)
) without rowid;

create table operations (
  id text primary key,
  name text not null,
  slot text not null references slots (id),
  does text not null check (json_valid(does)),
  takes text not null check (json_valid(takes)),
  hours real not null check (hours >= 0),
  turning integer not null check (turning in (0, 1)),
  cautions text not null check (json_valid(cautions)),
  source text not null references sources (id)
) without rowid;

create table chains (
  id text primary key,
  name text not null,
  leaves text not null check (leaves in ('float', 'nut engagement', 'gap')),
  links text not null check (json_valid(links)),
  min real not null,
  max real not null,
  source text not null references sources (id),
  check (min <= max)
) without rowid;

create table warmth (
  id text primary key,
  joint text not null references joints (id),
  sides text not null check (json_valid(sides)),
  source text not null references sources (id)
) without rowid;

create table rates (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  money text not null,
  hour real not null check (hour >= 0),
  source text not null references sources (id)
) without rowid;

-- A part without a row has no price, which is not the same as costing nothing.
create table prices (
  rates text not null references rates (id) on delete cascade,
  position integer not null,
  part integer not null references parts (n),
  price real not null check (price >= 0),
  primary key (rates, position)
) without rowid;
create index prices_by_part on prices (part);

-- Fits are kept by what a joint reads of a part: parts that read alike share one row here, and fit alike. They outlive the rows of their joint while a new
-- edition takes the place of an old one, so that only what changed is judged again.
create table matings (
  n integer primary key,
  joint text not null,
  side text not null check (side in ('a', 'b')),
  facts text not null check (json_valid(facts)),
  unique (joint, side, facts)
);

create table mates (
  joint text not null,
  part integer not null references parts (n) on delete cascade,
  mating integer not null references matings (n) on delete cascade,
  primary key (joint, part)
) without rowid;
create index mates_by_part on mates (part);
create index mates_by_mating on mates (mating);

-- Only what does not fail: two matings of a joint that was judged and have no row here will not fit.
create table fits (
  a integer not null references matings (n) on delete cascade,
  b integer not null references matings (n) on delete cascade,
  verdict text not null check (verdict in ('drops in', 'after work', 'not known')),
  findings text not null check (json_valid(findings)),
  primary key (a, b)
) without rowid;
create index fits_by_b on fits (b);

-- Joints as they were when their fits were judged; one whose rules have changed since is judged anew.
create table judged_joints (
  joint text primary key,
  rules text not null check (json_valid(rules))
) without rowid;
`,
};
