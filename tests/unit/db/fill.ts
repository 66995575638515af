import type { Connection } from '../../../db/driver/connection.ts';

/** Every row of a filled database as SQL, to fill an empty one of the same schema with. Search words follow from their triggers. */
export const rowsAsSql = async (connection: Connection): Promise<string> => {
  const tables = await connection.all<{ name: string }>(
    `select name from sqlite_master where type = 'table' and name not like 'search\\_words%' escape '\\' and name <> 'migrations' order by name`,
  );
  const lines: string[] = [];
  for (const { name } of tables) {
    for (const row of await connection.all(`select * from ${name}`)) {
      lines.push(`insert into ${name} (${Object.keys(row).join(', ')}) values (${Object.values(row).map(literal).join(', ')});`);
    }
  }
  return `${lines.join('\n')}\n`;
};

const literal = (value: string | number | null | Buffer): string => {
  if (value === null || typeof value === 'number') return String(value);
  if (typeof value === 'string') return `'${value.replaceAll("'", "''")}'`;
  return `x'${value.toString('hex')}'`;
};

/** How many rows each table holds. */
export const rowCounts = async (connection: Connection): Promise<Readonly<Record<string, number>>> => {
  const tables = await connection.all<{ name: string }>(
    `select name from sqlite_master where type = 'table' and sql not like '%virtual%' order by name`,
  );
  const counts: Record<string, number> = {};
  for (const { name } of tables) counts[name] = (await connection.all<{ c: number }>(`select count(*) as c from "${name}"`))[0]?.c ?? -1;
  return counts;
};
