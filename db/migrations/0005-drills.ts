import type { Migration } from './migration.ts';

/** Learners, their courses, the drills they answered and when each topic is due again. What is learnt stays when a pack goes: topics are kept by id alone. */
export const drills: Migration = {
  number: 5,
  name: 'drills',
  sql: `
create table courses (
  id text primary key,
  name text not null,
  -- null: all of the atlas's
  families text check (families is null or json_valid(families)),
  kinds text check (kinds is null or json_valid(kinds)),
  new_per_day integer not null check (new_per_day >= 0)
) without rowid;

create table learners (
  id text primary key,
  name text not null,
  course text references courses (id) on delete set null,
  since text not null
) without rowid;

-- When each topic is due for a learner, and all the scheduler knows of it.
create table drill_cards (
  learner text not null references learners (id) on delete cascade,
  topic text not null,
  due text not null,
  card text not null check (json_valid(card)),
  primary key (learner, topic)
) without rowid;
create index drill_cards_by_due on drill_cards (learner, due);

-- A drill is answered once; edition, topic and seed make it again.
create table drill_answers (
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
`,
};
