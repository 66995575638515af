import type { Reader } from './driver.ts';

/** The schema a database has, as SQL: tables, then indexes, triggers and views, each by name. FTS5's own side tables are left out. */
export const schemaText = async (reader: Reader): Promise<string> => {
  const rows = await reader.all<{ sql: string }>(
    `select sql from sqlite_master
     where sql is not null and not (type = 'table' and name like 'search\\_words\\_%' escape '\\')
     order by case type when 'table' then 0 when 'index' then 1 when 'trigger' then 2 else 3 end, name`,
  );
  return `${rows.map(({ sql }) => `${sql};`).join('\n\n')}\n`;
};
