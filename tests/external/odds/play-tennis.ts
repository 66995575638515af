import type { CompiledAtlas } from '../../../reasoner/index.ts';
import { atlasOfTable } from './table-atlas.ts';

/** The fourteen days of J. R. Quinlan, “Induction of decision trees”, Machine Learning 1 (1986) 81–106, table 1: outlook, temperature, humidity, wind → play. */
const days = `
Sunny Hot High Weak No
Sunny Hot High Strong No
Overcast Hot High Weak Yes
Rain Mild High Weak Yes
Rain Cool Normal Weak Yes
Rain Cool Normal Strong No
Overcast Cool Normal Strong Yes
Sunny Mild High Weak No
Sunny Cool Normal Weak Yes
Rain Mild Normal Weak Yes
Sunny Mild Normal Strong Yes
Overcast Mild High Strong Yes
Overcast Hot Normal Weak Yes
Rain Mild High Strong No`
  .trim()
  .split('\n')
  .map((line) => line.split(' '));

export const columns = ['outlook', 'temperature', 'humidity', 'wind'] as const;

const options = (column: number) => [...new Set(days.map((day) => day[column] as string))];

/** One slot that holds one of the fourteen days; of nine models alike each lists the nine days of play, of five alike the other five. */
export const oneSlotOfDays = (): CompiledAtlas =>
  atlasOfTable({
    slots: ['day'],
    features: columns.map((id, i) => ({ id, slot: 'day', kind: 'choice', options: options(i) })),
    parts: days.map((day, d) => ({
      id: `day-${d}`,
      slot: 'day',
      facts: Object.fromEntries(columns.map((column, i) => [column, { kind: 'choice', anyOf: [day[i] as string] }] as const)),
    })),
    models: classes((_, d) => [`day-${d}`]),
  });

/** Four slots, one for each column, independent of one another once the class is known: the naive Bayes reading of the same table. */
export const aSlotForEachColumn = (): CompiledAtlas =>
  atlasOfTable({
    slots: columns,
    features: columns.map((id, i) => ({ id, slot: id, kind: 'choice', options: options(i) })),
    parts: columns.flatMap((slot, i) =>
      days.map((day, d) => ({ id: `${slot}-${d}`, slot, facts: { [slot]: { kind: 'choice', anyOf: [day[i] as string] } as const } })),
    ),
    models: classes((_, d) => columns.map((column) => `${column}-${d}`)),
  });

const classes = (parts: (day: readonly string[], at: number) => string[]) =>
  ['Yes', 'No'].map((play) => {
    const lists = days.flatMap((day, d) => (day[4] === play ? [parts(day, d)] : []));
    return { id: play, times: lists.length, lists: lists.flat() };
  });
