import { allowedTable, factsTable, partsTable } from './write-tables.ts';

/** Files every pack has, as they are where it has nothing to say in them. */
const nothing = {
  ...Object.fromEntries(
    ['sources', 'stages', 'slots', 'ports', 'features', 'joints', 'makers', 'families', 'generations', 'models'].map((name) => [
      `${name}.json`,
      [],
    ]),
  ),
  'parts.csv': partsTable([]),
  'facts.csv': factsTable([]),
  'allowed.csv': allowedTable([], [], []),
};

/** A pack's files by their paths: tables as the text they are, everything else as JSON. */
export const packFiles = (head: object, files: Readonly<Record<string, unknown>>): Map<string, string> =>
  new Map(
    Object.entries({ 'pack.json': head, ...nothing, ...files }).map(([path, holds]) => [
      path,
      typeof holds === 'string' ? holds : `${JSON.stringify(holds, null, 2)}\n`,
    ]),
  );
