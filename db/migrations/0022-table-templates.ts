import type { Migration } from './migration.ts';

/** How the shop's own tables are matched, kept by name: headings and what their columns are, as JSON. */
export const tableTemplates: Migration = {
  number: 22,
  name: 'table templates',
  sql: `
create table table_templates (
  name text not null primary key,
  headings text not null,
  matching text not null,
  saved_at text not null
);
`,
};
