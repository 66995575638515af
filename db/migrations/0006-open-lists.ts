import type { Migration } from './migration.ts';

/** Where a model's list of parts is said not to be whole (A7). No row means that nobody has said so. */
export const openLists: Migration = {
  number: 6,
  name: 'open lists',
  sql: `
create table open_lists (
  model integer not null references models (n) on delete cascade,
  slot text not null references slots (id),
  position integer not null,
  primary key (model, slot)
) without rowid;
create index open_lists_by_slot on open_lists (slot);
`,
};
