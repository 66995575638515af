import type { Allowance } from '../atlas/pack.ts';
import type { Place } from '../read/faults.ts';
import { readCsv } from './read-files.ts';
import type { ReadParts } from './read-parts.ts';
import { mappedRow, type Reading } from './reading.ts';

export const readAllowed = async (
  { from, find, faults, ids }: Reading,
  parts: ReadParts,
): Promise<{ readonly allowed: readonly Allowance[]; readonly rowsOf: ReadonlyMap<string, number> }> => {
  const seen = new Map<string, number>();
  const allowed: Allowance[] = [];
  for (const brought of await readCsv(from, 'allowed.csv', faults)) {
    const { row, cells } = mappedRow(brought, ['slot'], ids);
    const at = (column: string): Place => ({ file: 'allowed.csv', row, column });
    find.model.find(cells.model, at('model'), faults);
    find.slot.find(cells.slot, at('slot'), faults);
    const part = parts.find(cells.part, at('part'));
    if (part !== undefined && part.slot !== cells.slot)
      faults.add(at('slot'), JSON.stringify(cells.slot), `${part.slot}, where ${part.id} sits`);
    if (cells.role !== 'names' && cells.role !== 'option' && cells.role !== 'service')
      faults.add(at('role'), JSON.stringify(cells.role), 'names, option or service');
    const key = `${cells.model} ${cells.part}`;
    const before = seen.get(key);
    if (before !== undefined)
      faults.add(at('part'), `${cells.part} in ${cells.model} a second time`, `every part of a model once (row ${before} has it)`);
    seen.set(key, row);
    allowed.push(cells as unknown as Allowance);
  }
  return { allowed, rowsOf: seen };
};
