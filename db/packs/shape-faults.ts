import { everyList } from '../atlas/lists.ts';
import type { Pack } from '../atlas/pack.ts';
import { shown } from '../read/faults.ts';
import { pathText } from '../read/json-places.ts';
import { expectedBy } from '../read/parse-json.ts';

export interface ShapeFault {
  readonly list: string;
  readonly id: string;
  readonly field: string | null;
  readonly found: string;
  readonly expected: string;
}

/**
 * Entries that were put together cell by cell, of two sides that each say something else of one, and come to what their list cannot hold. A pack with such an entry has no
 * canonical text.
 */
export const shapeFaults = (pack: Pack): readonly ShapeFault[] =>
  everyList.flatMap(({ name, schema }) =>
    (pack[name] as readonly { readonly id: string }[]).flatMap((entry) => {
      const parsed = schema.safeParse(entry, { reportInput: true });
      return parsed.success
        ? []
        : parsed.error.issues.map((issue) => ({
            list: name,
            id: entry.id,
            field: pathText(issue.path) || null,
            found: shown(issue.input),
            expected: expectedBy(issue),
          }));
    }),
  );
