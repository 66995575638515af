import type { Migration } from './migration.ts';

/**
 * The atlas as a graph, sheets, packs and search.
 *
 * Parts, models and features carry a whole number `n` beside their id, because the tables that grow with the atlas
 * (facts, sits, numbers) refer to them by it. `n` outlives a new edition of a pack, so that what other packs say of a part stays tied to it.
 * References to another pack's rows never cascade: removing what somebody still refers to must fail.
 */
export const atlas: Migration = {
  number: 1,
  name: 'atlas',
  sql: `
create table meta (
  key text primary key,
  value text not null
) without rowid;

create table packs (
  id text primary key,
  title text not null,
  edition text not null,
  invented integer not null check (invented in (0, 1)),
  note text not null,
  hash text not null,
  loaded_at text not null
) without rowid;

-- Terms (sources, stages, slots, ports, features, joints) may be held by several packs that agree on them.
create table pack_terms (
  pack text not null references packs (id),
  kind text not null check (kind in ('source', 'stage', 'slot', 'port', 'feature', 'joint')),
  id text not null,
  position integer not null,
  primary key (pack, kind, id)
) without rowid;
create index pack_terms_by_id on pack_terms (kind, id);

create table sources (
  id text primary key,
  title text not null,
  kind text not null check (kind in ('invented', 'measured in the shop', 'published', 'common practice, no source'))
) without rowid;

create table stages (
  id text primary key,
  name text not null,
  minutes real not null check (minutes >= 0)
) without rowid;

create table stage_after (
  stage text not null references stages (id) on delete cascade,
  after text not null references stages (id),
  position integer not null,
  primary key (stage, after)
) without rowid;
create index stage_after_by_after on stage_after (after);

create table slots (
  id text primary key,
  name text not null,
  part_group text not null check (part_group in ('core', 'housing', 'plate')),
  stage text not null references stages (id),
  swap_minutes real not null check (swap_minutes >= 0)
) without rowid;

create table ports (
  id text primary key,
  slot text not null references slots (id),
  name text not null
) without rowid;

create table features (
  n integer primary key,
  id text not null unique,
  slot text not null references slots (id),
  name text not null,
  kind text not null check (kind in ('count', 'measure', 'choice', 'presence', 'mark')),
  unit text,
  options text check (options is null or json_valid(options)),
  stage text not null references stages (id),
  minutes real not null check (minutes >= 0),
  instrument text,
  resolution real check (resolution > 0),
  wear_below real check (wear_below >= 0),
  wear_above real check (wear_above >= 0),
  port text references ports (id),
  check (kind <> 'measure' or unit in ('mm', 'deg')),
  check ((kind = 'choice') = (options is not null)),
  check ((wear_below is null) = (wear_above is null))
);
create index features_by_slot on features (slot);

create table joints (
  id text primary key,
  name text not null,
  a text not null references ports (id),
  b text not null references ports (id),
  rules text not null check (json_valid(rules)),
  source text not null references sources (id),
  check (a <> b)
) without rowid;

create table makers (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  plate_rule integer not null check (plate_rule in (0, 1)),
  grammar text check (grammar is null or json_valid(grammar)),
  source text not null references sources (id)
) without rowid;

create table trade_names (
  maker text not null references makers (id) on delete cascade,
  position integer not null,
  name text not null,
  from_year integer not null,
  to_year integer,
  primary key (maker, position),
  check (to_year is null or to_year >= from_year)
) without rowid;

create table families (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  maker text references makers (id),
  from_year integer,
  to_year integer,
  about text not null,
  source text not null references sources (id)
) without rowid;
create index families_by_maker on families (maker);

create table family_edges (
  kind text not null check (kind in ('descends from', 'succeeds', 'pattern of')),
  from_family text not null references families (id) on delete cascade,
  to_family text not null references families (id),
  position integer not null,
  primary key (kind, from_family, to_family),
  check (from_family <> to_family)
) without rowid;
create index family_edges_by_to on family_edges (to_family, kind);

create table generations (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  family text not null references families (id),
  name text not null,
  from_year integer,
  to_year integer,
  succeeds text references generations (id),
  source text not null references sources (id)
) without rowid;
create index generations_by_family on generations (family);
create index generations_by_succeeds on generations (succeeds);

create table models (
  n integer primary key,
  id text not null unique,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  family text not null references families (id),
  generation text references generations (id),
  pattern_of integer references models (n),
  from_year integer,
  to_year integer,
  source text not null references sources (id)
);
create index models_by_family on models (family);
create index models_by_pattern_of on models (pattern_of);
create index models_by_pack on models (pack);

create table parts (
  n integer primary key,
  id text not null unique,
  pack text not null references packs (id),
  position integer not null,
  slot text not null references slots (id),
  name text not null,
  maker text references makers (id),
  pattern_of integer references parts (n),
  supersedes integer references parts (n),
  source text not null references sources (id)
);
create index parts_by_slot on parts (slot);
create index parts_by_maker on parts (maker);
create index parts_by_pattern_of on parts (pattern_of);
create index parts_by_supersedes on parts (supersedes);
create index parts_by_pack on parts (pack);

create table numbers (
  part integer not null references parts (n) on delete cascade,
  position integer not null,
  number text not null,
  primary key (part, position)
) without rowid;

-- What is not known has a row of its own and no figures; a missing row is silence. Neither is ever zero.
create table facts (
  part integer not null references parts (n) on delete cascade,
  feature integer not null references features (n),
  kind text not null check (kind in ('count', 'measure', 'choice', 'presence', 'mark', 'not known')),
  nominal real,
  lower real,
  upper real,
  code text,
  any_of text check (any_of is null or json_valid(any_of)),
  blank integer check (blank in (0, 1)),
  present integer check (present in (0, 1)),
  source text references sources (id),
  primary key (part, feature),
  check (lower is null or lower <= upper),
  check (case kind
    when 'count' then lower is not null and upper is not null
    when 'measure' then nominal is not null and lower is not null and upper is not null
    when 'choice' then any_of is not null
    when 'presence' then present is not null
    when 'mark' then any_of is not null and blank is not null
    else nominal is null and lower is null and upper is null and any_of is null and present is null
  end)
) without rowid;
create index facts_by_feature on facts (feature);

create table sits (
  model integer not null references models (n),
  part integer not null references parts (n),
  role text not null check (role in ('names', 'option', 'service')),
  pack text not null references packs (id),
  primary key (model, part)
) without rowid;
create index sits_by_part on sits (part);
create index sits_by_pack on sits (pack);

create table sheets (
  id text not null,
  origin text not null check (origin in ('own', 'sample')),
  pack text references packs (id),
  position integer not null,
  title text not null,
  kind text not null check (kind in ('found', 'planned')),
  claimed text,
  observations integer not null,
  body text not null check (json_valid(body)),
  saved_at text,
  primary key (id, origin),
  check ((origin = 'sample') = (pack is not null)),
  check ((origin = 'own') = (saved_at is not null))
) without rowid;
create index sheets_by_pack on sheets (pack);

-- One row for each name or number a node may be looked up by. 'compact' is the term without case and separators.
create table search_terms (
  n integer primary key,
  pack text not null references packs (id),
  node_kind text not null check (node_kind in ('maker', 'family', 'generation', 'model', 'part')),
  node_id text not null,
  field text not null check (field in ('name', 'trade name', 'number')),
  term text not null,
  compact text not null
);
create index search_terms_by_compact on search_terms (compact);
create index search_terms_by_node on search_terms (node_kind, node_id);
create index search_terms_by_pack on search_terms (pack);

create virtual table search_words using fts5 (
  term,
  content = 'search_terms',
  content_rowid = 'n',
  tokenize = 'unicode61 remove_diacritics 2',
  prefix = '1 2 3'
);
create trigger search_terms_insert after insert on search_terms begin
  insert into search_words (rowid, term) values (new.n, new.term);
end;
create trigger search_terms_delete after delete on search_terms begin
  insert into search_words (search_words, rowid, term) values ('delete', old.n, old.term);
end;
create trigger search_terms_update after update on search_terms begin
  insert into search_words (search_words, rowid, term) values ('delete', old.n, old.term);
  insert into search_words (rowid, term) values (new.n, new.term);
end;

-- Every edge of the graph in one shape, each read from left to right: "A succeeds B".
create view edges (kind, from_kind, from_id, to_kind, to_id, role) as
  select kind, 'family', from_family, 'family', to_family, null from family_edges
  union all select 'made by', 'family', id, 'maker', maker, null from families where maker is not null
  union all select 'generation of', 'generation', id, 'family', family, null from generations
  union all select 'succeeds', 'generation', id, 'generation', succeeds, null from generations where succeeds is not null
  union all select 'model of', 'model', id, 'family', family, null from models
  union all select 'of generation', 'model', id, 'generation', generation, null from models where generation is not null
  union all select 'pattern of', 'model', m.id, 'model', o.id, null from models m join models o on o.n = m.pattern_of
  union all select 'made by', 'part', id, 'maker', maker, null from parts where maker is not null
  union all select 'pattern of', 'part', p.id, 'part', o.id, null from parts p join parts o on o.n = p.pattern_of
  union all select 'supersedes', 'part', p.id, 'part', o.id, null from parts p join parts o on o.n = p.supersedes
  union all select 'may sit in', 'part', p.id, 'model', m.id, s.role from sits s join parts p on p.n = s.part join models m on m.n = s.model;
`,
};
