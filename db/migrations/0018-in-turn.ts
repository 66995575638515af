import type { Migration } from './migration.ts';

/**
 * What is kept in turn is numbered in turn: a clock that was set back must not turn it round. Own sheets by their last saving (`position`), photographs of a case as they were
 * added, learners as they came. Numbers are given by the store itself to whatever comes without one (0); the times stay as they were said. What is here already is numbered by its times.
 */
export const inTurn: Migration = {
  number: 18,
  name: 'in turn',
  sql: `
alter table case_photos add column n integer not null default 0;
alter table learners add column n integer not null default 0;

update sheets set position = (
  select count(*) from sheets as other
  where other.origin = 'own' and (coalesce(other.saved_at, ''), other.id) <= (coalesce(sheets.saved_at, ''), sheets.id)
) where origin = 'own';
update case_photos set n = (
  select count(*) from case_photos as other
  where other.sheet = case_photos.sheet and (other.added_at, other.photo) <= (case_photos.added_at, case_photos.photo)
);
update learners set n = (select count(*) from learners as other where (other.since, other.id) <= (learners.since, learners.id));

create trigger sheets_made_in_turn after insert on sheets when new.origin = 'own' and new.position = 0 begin
  update sheets set position = (select max(position) + 1 from sheets where origin = 'own') where id = new.id and origin = 'own';
end;
create trigger sheets_saved_in_turn after update of body, saved_at on sheets when new.origin = 'own' and new.position = 0 begin
  update sheets set position = max(old.position, (select max(position) from sheets where origin = 'own')) + 1 where id = new.id and origin = 'own';
end;
create trigger case_photos_in_turn after insert on case_photos when new.n = 0 begin
  update case_photos set n = (select max(n) + 1 from case_photos where sheet = new.sheet) where sheet = new.sheet and photo = new.photo;
end;
create trigger learners_in_turn after insert on learners when new.n = 0 begin
  update learners set n = (select max(n) + 1 from learners) where id = new.id;
end;
`,
};
