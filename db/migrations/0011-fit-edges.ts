import type { Migration } from './migration.ts';

/**
 * A class of parts that mate alike knows its parts, and a part is found in its classes by its id, whose number another edition of its pack may change.
 * The fits kept are of an atlas: whatever changes one ends them, unless the same batch makes them anew after it.
 */
export const fitEdges: Migration = {
  number: 11,
  name: 'fit edges',
  sql: `
drop table mates;
delete from fits;
delete from matings;
delete from judged_joints;
delete from meta where key = 'fits';
-- Ids of its parts, in the order of the atlas.
alter table matings add column parts text not null default '[]' check (json_valid(parts));
create table mates (
  part text not null,
  mating integer not null references matings (n) on delete cascade,
  primary key (part, mating)
) without rowid;
create index mates_by_mating on mates (mating);
create view across (own, other, verdict, findings) as select a, b, verdict, findings from fits union all select b, a, verdict, findings from fits;
create trigger packs_insert_ends_fits after insert on packs begin delete from meta where key = 'fits'; end;
create trigger packs_update_ends_fits after update on packs begin delete from meta where key = 'fits'; end;
create trigger packs_delete_ends_fits after delete on packs begin delete from meta where key = 'fits'; end;
create trigger journal_insert_ends_fits after insert on journal begin delete from meta where key = 'fits'; end;
`,
};
