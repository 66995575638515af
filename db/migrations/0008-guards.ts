import type { Migration } from './migration.ts';

/**
 * What a batch rests on, asked as one of its statements: an insert here fails unless what is inserted is true, and the whole batch with it.
 * Nothing is ever kept here, so that it costs no page of the file.
 */
export const guards: Migration = {
  number: 8,
  name: 'guards',
  sql: `
create view guards (n, holds) as select null, null where false;
create trigger guards_hold instead of insert on guards when new.holds is not true begin
  select raise(abort, 'a guard does not hold');
end;
`,
};
