import { useMemo } from 'react';
import type { CellRead } from '../../electron/bridge/edit-calls.ts';
import { latestGiven, useAsk } from '../bridge/useAsk.ts';
import type { Json, JsonObject } from './json.ts';

export interface ReadCells {
  /** What was read of each feature, as far as it was read of what stands there now. */
  readonly read: Readonly<Record<string, CellRead>>;
  /** The part's facts as its cells say them; null while some are not read yet, or cannot be. */
  readonly facts: JsonObject | null;
  /** How many cannot be read. */
  readonly wrong: number;
}

/**
 * The facts that the cells of a part say. What nobody touched says what it said before, to the last figure.
 * @param before the facts, and how they were written into the cells
 */
export const useReadCells = (
  cells: Readonly<Record<string, string>>,
  before: { readonly facts: JsonObject; readonly cells: Readonly<Record<string, string>> },
): ReadCells => {
  const typed = Object.fromEntries(Object.entries(cells).filter(([feature, text]) => text.trim() !== '' && text !== before.cells[feature]));
  const asked = useAsk('edit.facts', Object.keys(typed).length === 0 ? null : { cells: typed }, 100);
  const given = latestGiven(asked);
  const key = JSON.stringify([cells, typed]);
  // biome-ignore lint/correctness/useExhaustiveDependencies: `key` stands for both, which are new objects at every render.
  return useMemo(() => {
    const of = given?.args.cells as Readonly<Record<string, string>> | undefined;
    const read = Object.fromEntries(Object.entries(given?.value ?? {}).filter(([feature]) => of?.[feature] === typed[feature])) as Readonly<
      Record<string, CellRead>
    >;
    const facts: Record<string, Json> = {};
    let whole = true;
    for (const [feature, text] of Object.entries(cells)) {
      if (text.trim() === '') continue;
      const of = read[feature];
      if (text === before.cells[feature]) facts[feature] = before.facts[feature] ?? null;
      else if (of?.ok) facts[feature] = of.fact as unknown as Json;
      else whole = false;
    }
    return { read, facts: whole ? facts : null, wrong: Object.values(read).filter(({ ok }) => !ok).length };
  }, [given, key, before]);
};
