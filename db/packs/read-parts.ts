import type { Atlas, Part, PartId, SourceId } from '../../reasoner/index.ts';
import type { CsvRow } from '../atlas/pack.ts';
import type { Faults, Place } from '../read/faults.ts';
import { isPlain, plainText } from '../read/plain-text.ts';
import { findCycle } from './find-cycle.ts';
import { idsOnce, type Lookups } from './lookups.ts';
import { readCsv } from './read-files.ts';
import { mappedRow, type Reading } from './reading.ts';

export interface ReadParts {
  readonly read: readonly { readonly row: number; readonly part: Omit<Part, 'facts' | 'factSources'> }[];
  find(id: string, place: Place): Pick<Part, 'id' | 'slot' | 'source'> | undefined;
  get(id: string): Pick<Part, 'id' | 'slot' | 'source'> | undefined;
}

/** @param beside null where it could not be found out: then ids are taken to lead somewhere */
export const readParts = async ({ from, find, faults, ids }: Reading, beside: Atlas | null): Promise<ReadParts> => {
  const rows = [...(await readCsv(from, 'parts.csv', faults))].map((one) => mappedRow(one, ['slot', 'source'], ids));
  const silent = beside === null || faults.isBroken('parts.csv');
  const at = (row: number, column: string): Place => ({ file: 'parts.csv', row, column });
  const read = rows.map(({ row, cells }) => ({ row, part: partOf(cells, (column) => at(row, column), find, faults) }));
  idsOnce(
    read.map(({ part }) => part),
    (index) => at(read[index]?.row ?? 0, 'id'),
    faults,
  );

  const byId = new Map<string, Pick<Part, 'id' | 'slot' | 'source'>>((beside?.parts ?? []).map((part) => [part.id, part]));
  for (const { part } of read) byId.set(part.id, part);
  const parts: ReadParts = {
    read,
    get: (id) => byId.get(id),
    find: (id, place) => {
      const found = byId.get(id);
      if (found === undefined && !silent) faults.add(place, JSON.stringify(id), 'the id of a part in this pack or the atlas');
      return found;
    },
  };

  for (const { row, part } of read) {
    for (const [field, column] of [
      ['patternOf', 'pattern_of'],
      ['supersedes', 'supersedes'],
    ] as const) {
      const id = part[field];
      const other = id === undefined ? undefined : parts.find(id, at(row, column));
      if (other !== undefined && other.slot !== part.slot) faults.add(at(row, column), `a part of ${other.slot}`, `a part of ${part.slot}`);
    }
  }
  for (const [field, column] of [
    ['patternOf', 'pattern_of'],
    ['supersedes', 'supersedes'],
  ] as const) {
    const cycle = findCycle<Pick<Part, 'id' | 'patternOf' | 'supersedes'>>(
      read.map(({ part }) => part),
      beside?.parts ?? [],
      (part) => (part[field] === undefined ? [] : [part[field]]),
    );
    if (cycle !== null) faults.add(at(read[cycle.index]?.row ?? 0, column), `a circle: ${cycle.ids.join(' → ')}`, 'a line without circles');
  }
  return parts;
};

const partOf = (cells: CsvRow<'parts.csv'>, at: (column: string) => Place, find: Lookups, faults: Faults): Omit<Part, 'facts'> => {
  if (!/^[\p{L}\p{N}][\p{L}\p{N}._:+-]{0,99}$/u.test(cells.id))
    faults.add(at('id'), JSON.stringify(cells.id), 'an id of letters, digits and . _ : + -');
  if (cells.name === '' || !isPlain(cells.name)) faults.add(at('name'), JSON.stringify(cells.name), plainText);
  const slot = find.slot.find(cells.slot, at('slot'), faults);
  if (cells.maker !== '') find.maker.find(cells.maker, at('maker'), faults);
  if (cells.maker !== '' && cells.pattern_of !== '') {
    faults.add(at('maker'), JSON.stringify(cells.maker), "nothing: a pattern part bears no maker's name");
  }
  const numbers = cells.numbers === '' ? [] : cells.numbers.split(';');
  if (numbers.some((number) => number === '' || !isPlain(number)))
    faults.add(at('numbers'), JSON.stringify(cells.numbers), `numbers with ; between them, each ${plainText}`);
  if (new Set(numbers).size !== numbers.length) faults.add(at('numbers'), JSON.stringify(cells.numbers), 'every number once');
  find.source.find(cells.source, at('source'), faults);
  return {
    id: cells.id as PartId,
    slot: slot?.id ?? (cells.slot as Part['slot']),
    name: cells.name,
    maker: cells.maker === '' ? null : (cells.maker as NonNullable<Part['maker']>),
    numbers,
    ...(cells.pattern_of === '' ? {} : { patternOf: cells.pattern_of as PartId }),
    ...(cells.supersedes === '' ? {} : { supersedes: cells.supersedes as PartId }),
    source: cells.source as SourceId,
  };
};
