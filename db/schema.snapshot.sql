CREATE TABLE case_counts (
  letter text not null check (letter = '' or letter glob '[A-HJ-NP-Z]'),
  year integer not null,
  last integer not null check (last >= 1),
  primary key (letter, year)
) without rowid;

CREATE TABLE case_details (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  at text not null,
  customer text not null,
  looked_by text not null,
  notes text not null, who text not null default '',
  primary key (sheet, n)
) without rowid;

CREATE TABLE case_entries (
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

CREATE TABLE case_origins (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  number text not null,
  at text not null,
  who text not null,
  primary key (sheet, n)
) without rowid;

CREATE TABLE case_photos (
  sheet text not null references cases (sheet) on delete cascade,
  photo text not null references photos (id),
  added_at text not null,
  caption text not null,
  about_slot text,
  about_observation text, n integer not null default 0,
  primary key (sheet, photo),
  check (about_slot is null or about_observation is null)
) without rowid;

CREATE TABLE case_words (
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

CREATE TABLE cases (
  sheet text primary key,
  year integer not null,
  number integer not null,
  opened_on text not null check (opened_on glob '[0-9][0-9][0-9][0-9]-[0-9][0-9]-[0-9][0-9]'),
  letter text not null default '' check (letter = '' or letter glob '[A-HJ-NP-Z]'),
  foreign key (letter, year) references case_counts (letter, year)
) without rowid;

CREATE TABLE cases_left (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  at text not null,
  who text not null,
  reason text not null,
  entry integer not null,
  otherwise text not null,
  primary key (sheet, n)
) without rowid;

CREATE TABLE chains (
  id text primary key,
  name text not null,
  leaves text not null check (leaves in ('float', 'nut engagement', 'gap')),
  links text not null check (json_valid(links)),
  min real not null,
  max real not null,
  source text not null references sources (id),
  check (min <= max)
) without rowid;

CREATE TABLE courses (
  id text primary key,
  name text not null,
  -- null: all of the atlas's
  families text check (families is null or json_valid(families)),
  kinds text check (kinds is null or json_valid(kinds)),
  new_per_day integer not null check (new_per_day >= 0)
) without rowid;

CREATE TABLE documents (
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

CREATE TABLE drawings (
  id text primary key,
  slot text not null references slots (id),
  drawing text not null,
  feeds text not null
) without rowid;

CREATE TABLE drill_answers (
  learner text not null references learners (id) on delete cascade,
  n integer not null,
  topic text not null,
  seed integer not null,
  edition text not null,
  -- whether the topic was new to the learner
  first integer not null check (first in (0, 1)),
  response text not null check (json_valid(response)),
  correct integer not null check (correct in (0, 1)),
  -- what was taken for what; null where the answer was right
  asked text check (asked is null or json_valid(asked)),
  answered text check (answered is null or json_valid(answered)),
  at text not null,
  primary key (learner, n),
  unique (learner, topic, seed)
) without rowid;

CREATE TABLE drill_cards (
  learner text not null references learners (id) on delete cascade,
  topic text not null,
  due text not null,
  card text not null check (json_valid(card)),
  primary key (learner, topic)
) without rowid;

CREATE TABLE facts (
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

CREATE TABLE families (
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

CREATE TABLE family_edges (
  kind text not null check (kind in ('descends from', 'succeeds', 'pattern of')),
  from_family text not null references families (id) on delete cascade,
  to_family text not null references families (id),
  position integer not null,
  primary key (kind, from_family, to_family),
  check (from_family <> to_family)
) without rowid;

CREATE TABLE features (
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
  port text references ports (id), remarks text check (remarks is null or json_valid(remarks)), also_called text check (also_called is null or json_valid(also_called)), says text check (says in ('part number', 'serial number', 'trade name', 'year of make')), plausible_from real check (plausible_from is null or kind in ('measure', 'count')), plausible_to real check ((plausible_from is null) = (plausible_to is null) and (plausible_to is null or plausible_from < plausible_to)),
  check (kind <> 'measure' or unit in ('mm', 'deg')),
  check ((kind = 'choice') = (options is not null)),
  check ((wear_below is null) = (wear_above is null))
);

CREATE TABLE fits (
  a integer not null references matings (n) on delete cascade,
  b integer not null references matings (n) on delete cascade,
  verdict text not null check (verdict in ('drops in', 'after work', 'not known')),
  findings text not null check (json_valid(findings)),
  primary key (a, b)
) without rowid;

CREATE TABLE generations (
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

CREATE TABLE instruments (
  id text primary key,
  name text not null,
  also_called text check (also_called is null or json_valid(also_called)),
  unit text not null check (unit in ('mm', 'deg')),
  resolution real not null check (resolution > 0),
  u real not null check (u > 0),
  basis text not null,
  source text not null references sources (id)
) without rowid;

CREATE TABLE joints (
  id text primary key,
  name text not null,
  a text not null references ports (id),
  b text not null references ports (id),
  rules text not null check (json_valid(rules)),
  source text not null references sources (id),
  check (a <> b)
) without rowid;

CREATE TABLE journal (
  n integer primary key,
  id text not null unique,
  parent text not null unique,
  at text not null,
  kind text not null,
  origin text not null,
  who text,
  why text,
  source text,
  cells integer not null check (cells >= 0), together integer, undoes integer,
  check (id <> parent)
);

CREATE TABLE journal_carried (
  entry integer not null references journal (n),
  turn integer not null,
  list text not null,
  from_id text not null,
  to_id text not null,
  moved text not null check (json_valid(moved)),
  there text not null check (json_valid(there)),
  seen text not null check (json_valid(seen)),
  primary key (entry, turn)
) without rowid;

CREATE TABLE journal_effects (
  entry integer not null references journal (n),
  piece integer not null,
  body blob not null,
  primary key (entry, piece)
) without rowid;

CREATE TABLE judged_joints (
  joint text primary key,
  rules text not null check (json_valid(rules))
) without rowid;

CREATE TABLE kept_files (
  id text primary key check (length(id) = 64),
  type text not null,
  size integer not null check (size = length(bytes)),
  bytes blob not null
);

CREATE TABLE keyring (
  key text not null primary key,
  name text not null,
  since text not null,
  who text not null,
  withdrawn_at text,
  withdrawn_who text check ((withdrawn_who is null) = (withdrawn_at is null)),
  at text not null
);

CREATE TABLE learners (
  id text primary key,
  name text not null,
  course text references courses (id) on delete set null,
  since text not null
, n integer not null default 0, level text not null default 'measured' check (level in ('by eye', 'measured'))) without rowid;

CREATE TABLE makers (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  plate_rule integer not null check (plate_rule in (0, 1)),
  grammar text check (grammar is null or json_valid(grammar)),
  source text not null references sources (id)
, numbering text check (numbering is null or json_valid(numbering))) without rowid;

CREATE TABLE mates (
  part text not null,
  mating integer not null references matings (n) on delete cascade,
  primary key (part, mating)
) without rowid;

CREATE TABLE matings (
  n integer primary key,
  joint text not null,
  side text not null check (side in ('a', 'b')),
  facts text not null check (json_valid(facts)), parts text not null default '[]' check (json_valid(parts)),
  unique (joint, side, facts)
);

CREATE TABLE meta (
  key text primary key,
  value text not null
) without rowid;

CREATE TABLE metals (
  id text primary key,
  name text not null,
  expansion real not null,
  disc text check (disc is null or json_valid(disc)),
  source text not null references sources (id)
) without rowid;

CREATE TABLE migrations (number integer primary key, name text not null, hash text not null);

CREATE TABLE models (
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

CREATE TABLE numbers (
  part integer not null references parts (n) on delete cascade,
  position integer not null,
  number text not null,
  primary key (part, position)
) without rowid;

CREATE TABLE open_lists (
  model integer not null references models (n) on delete cascade,
  slot text not null references slots (id),
  position integer not null,
  primary key (model, slot)
) without rowid;

CREATE TABLE operations (
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

CREATE TABLE own_words (
  pack text not null references packs (id),
  cell text not null,
  own text,
  said text,
  primary key (pack, cell),
  check (own is not said)
) without rowid;

CREATE TABLE "pack_terms" (
  pack text not null references packs (id),
  kind text not null,
  id text not null,
  position integer not null,
  primary key (pack, kind, id)
) without rowid;

CREATE TABLE packs (
  id text primary key,
  title text not null,
  edition text not null,
  invented integer not null check (invented in (0, 1)),
  note text not null,
  hash text not null,
  loaded_at text not null
, content text, leans_on text check (leans_on is null or json_valid(leans_on)), own integer not null default 0 check (own in (0, 1)), licence text, answered_by text, signer text, signature text check ((signature is null) = (signer is null)), mapped text check (mapped is null or json_valid(mapped))) without rowid;

CREATE TABLE parts (
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

CREATE TABLE photos (
  id text primary key check (length(id) = 64),
  type text not null check (type in ('image/jpeg', 'image/png', 'image/webp')),
  width integer not null check (width > 0),
  height integer not null check (height > 0),
  size integer not null check (size = length(bytes)),
  bytes blob not null,
  thumbnail_type text not null check (thumbnail_type in ('image/jpeg', 'image/png', 'image/webp')),
  thumbnail blob not null
);

CREATE TABLE ports (
  id text primary key,
  slot text not null references slots (id),
  name text not null
) without rowid;

CREATE TABLE prices (
  rates text not null references rates (id) on delete cascade,
  position integer not null,
  part integer not null references parts (n),
  price real not null check (price >= 0),
  primary key (rates, position)
) without rowid;

CREATE TABLE rates (
  id text primary key,
  pack text not null references packs (id),
  position integer not null,
  name text not null,
  money text not null,
  hour real not null check (hour >= 0),
  source text not null references sources (id)
) without rowid;

CREATE TABLE samples (
  id text primary key,
  part text not null,
  slot text not null,
  feature text not null,
  value text not null check (json_valid(value)),
  u real check (u > 0),
  how text not null,
  from_sheet text not null,
  entry text not null,
  case_number text not null,
  kept_at text not null,
  who text not null,
  out_by text,
  at text not null
) without rowid;

CREATE TABLE search_terms (
  n integer primary key,
  pack text not null references packs (id),
  node_kind text not null check (node_kind in ('maker', 'family', 'generation', 'model', 'part')),
  node_id text not null,
  field text not null check (field in ('name', 'trade name', 'number')),
  term text not null,
  compact text not null
);

CREATE VIRTUAL TABLE search_words using fts5 (
  term,
  content = 'search_terms',
  content_rowid = 'n',
  tokenize = 'unicode61 remove_diacritics 2',
  prefix = '1 2 3'
);

CREATE TABLE sheets (
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

CREATE TABLE shop_prices (
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

CREATE TABLE shop_settings (
  key text primary key,
  value text not null check (json_valid(value)),
  at text not null,
  who text not null
) without rowid;

CREATE TABLE sits (
  model integer not null references models (n),
  part integer not null references parts (n),
  role text not null check (role in ('names', 'option', 'service')),
  pack text not null references packs (id),
  primary key (model, part)
) without rowid;

CREATE TABLE slots (
  id text primary key,
  name text not null,
  part_group text not null check (part_group in ('core', 'housing', 'plate')),
  stage text not null references stages (id),
  swap_minutes real not null check (swap_minutes >= 0)
, also_called text check (also_called is null or json_valid(also_called))) without rowid;

CREATE TABLE sources (
  id text primary key,
  title text not null,
  kind text not null check (kind in ('invented', 'measured in the shop', 'published', 'common practice, no source'))
) without rowid;

CREATE TABLE stage_after (
  stage text not null references stages (id) on delete cascade,
  after text not null references stages (id),
  position integer not null,
  primary key (stage, after)
) without rowid;

CREATE TABLE stages (
  id text primary key,
  name text not null,
  minutes real not null check (minutes >= 0)
) without rowid;

CREATE TABLE stock (
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

CREATE TABLE table_templates (
  name text not null primary key,
  headings text not null,
  matching text not null,
  saved_at text not null
);

CREATE TABLE terms (
  id text primary key,
  name text not null,
  also_called text check (also_called is null or json_valid(also_called)),
  short text not null,
  more text not null,
  drawn text check (drawn is null or json_valid(drawn)),
  near text check (near is null or json_valid(near)),
  everyday integer check (everyday is null or everyday = 1)
) without rowid;

CREATE TABLE trade_names (
  maker text not null references makers (id) on delete cascade,
  position integer not null,
  name text not null,
  from_year integer not null,
  to_year integer,
  primary key (maker, position),
  check (to_year is null or to_year >= from_year)
) without rowid;

CREATE TABLE unit_numbers (
  sheet text not null references cases (sheet) on delete cascade,
  n integer not null,
  says text not null check (says in ('serial number', 'part number')),
  text text not null,
  key text,
  primary key (sheet, n)
) without rowid;

CREATE TABLE warmth (
  id text primary key,
  joint text not null references joints (id),
  sides text not null check (json_valid(sides)),
  source text not null references sources (id)
) without rowid;

CREATE INDEX case_origins_by_number on case_origins (number);

CREATE INDEX case_photos_by_photo on case_photos (photo);

CREATE UNIQUE INDEX cases_by_number on cases (letter, year, number);

CREATE INDEX documents_by_file on documents (file);

CREATE INDEX drill_cards_by_due on drill_cards (learner, due);

CREATE INDEX facts_by_feature on facts (feature);

CREATE INDEX families_by_maker on families (maker);

CREATE INDEX family_edges_by_to on family_edges (to_family, kind);

CREATE INDEX features_by_slot on features (slot);

CREATE INDEX fits_by_b on fits (b);

CREATE INDEX generations_by_family on generations (family);

CREATE INDEX generations_by_succeeds on generations (succeeds);

CREATE INDEX journal_by_undoes on journal (undoes);

CREATE INDEX mates_by_mating on mates (mating);

CREATE INDEX models_by_family on models (family);

CREATE INDEX models_by_pack on models (pack);

CREATE INDEX models_by_pattern_of on models (pattern_of);

CREATE INDEX open_lists_by_slot on open_lists (slot);

CREATE INDEX pack_terms_by_id on pack_terms (kind, id);

CREATE INDEX parts_by_maker on parts (maker);

CREATE INDEX parts_by_pack on parts (pack);

CREATE INDEX parts_by_pattern_of on parts (pattern_of);

CREATE INDEX parts_by_slot on parts (slot);

CREATE INDEX parts_by_supersedes on parts (supersedes);

CREATE INDEX prices_by_part on prices (part);

CREATE INDEX samples_by_part on samples (part);

CREATE INDEX samples_by_sheet on samples (from_sheet, slot);

CREATE INDEX search_terms_by_compact on search_terms (compact);

CREATE INDEX search_terms_by_node on search_terms (node_kind, node_id);

CREATE INDEX search_terms_by_pack on search_terms (pack);

CREATE INDEX sheets_by_pack on sheets (pack);

CREATE INDEX sits_by_pack on sits (pack);

CREATE INDEX sits_by_part on sits (part);

CREATE INDEX stage_after_by_after on stage_after (after);

CREATE INDEX stock_by_part on stock (part);

CREATE INDEX unit_numbers_by_key on unit_numbers (key);

CREATE TRIGGER case_photos_delete_photo after delete on case_photos
when not exists (select 1 from case_photos where photo = old.photo) begin
  delete from photos where id = old.photo;
end;

CREATE TRIGGER case_photos_in_turn after insert on case_photos when new.n = 0 begin
  update case_photos set n = (select max(n) + 1 from case_photos where sheet = new.sheet) where sheet = new.sheet and photo = new.photo;
end;

CREATE TRIGGER documents_drop_file after delete on documents begin
  delete from kept_files where id = old.file
    and not exists (select 1 from documents where file = old.file)
    and not exists (select 1 from shop_settings where value ->> '$.logo.file' = old.file);
end;

CREATE TRIGGER guards_hold instead of insert on guards when new.holds is not true begin
  select raise(abort, 'a guard does not hold');
end;

CREATE TRIGGER journal_insert_ends_fits after insert on journal begin delete from meta where key = 'fits'; end;

CREATE TRIGGER learners_in_turn after insert on learners when new.n = 0 begin
  update learners set n = (select max(n) + 1 from learners) where id = new.id;
end;

CREATE TRIGGER packs_delete_ends_fits after delete on packs begin delete from meta where key = 'fits'; end;

CREATE TRIGGER packs_insert_ends_fits after insert on packs begin delete from meta where key = 'fits'; end;

CREATE TRIGGER packs_update_ends_fits after update on packs begin delete from meta where key = 'fits'; end;

CREATE TRIGGER search_terms_delete after delete on search_terms begin
  insert into search_words (search_words, rowid, term) values ('delete', old.n, old.term);
end;

CREATE TRIGGER search_terms_insert after insert on search_terms begin
  insert into search_words (rowid, term) values (new.n, new.term);
end;

CREATE TRIGGER search_terms_update after update on search_terms begin
  insert into search_words (search_words, rowid, term) values ('delete', old.n, old.term);
  insert into search_words (rowid, term) values (new.n, new.term);
end;

CREATE TRIGGER sheets_delete_case after delete on sheets when old.origin = 'own' begin
  delete from cases where sheet = old.id;
end;

CREATE TRIGGER sheets_made_in_turn after insert on sheets when new.origin = 'own' and new.position = 0 begin
  update sheets set position = (select max(position) + 1 from sheets where origin = 'own') where id = new.id and origin = 'own';
end;

CREATE TRIGGER sheets_saved_in_turn after update of body, saved_at on sheets when new.origin = 'own' and new.position = 0 begin
  update sheets set position = max(old.position, (select max(position) from sheets where origin = 'own')) + 1 where id = new.id and origin = 'own';
end;

CREATE TRIGGER shop_settings_drop_file after update of value on shop_settings
when old.value ->> '$.logo.file' is not new.value ->> '$.logo.file' begin
  delete from kept_files where id = old.value ->> '$.logo.file'
    and not exists (select 1 from documents where file = old.value ->> '$.logo.file')
    and not exists (select 1 from shop_settings where value ->> '$.logo.file' = old.value ->> '$.logo.file');
end;

CREATE VIEW edges (kind, from_kind, from_id, to_kind, to_id, role) as
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

CREATE VIEW guards (n, holds) as select null, null where false;
