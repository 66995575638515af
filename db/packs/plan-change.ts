import { eq } from 'drizzle-orm';
import type { Atlas } from '../../reasoner/index.ts';
import { overwriting } from '../atlas/rows.ts';
import { changeBetween, type Effect } from '../changes/change.ts';
import { atHead, type Entry, entryStatements, headOf } from '../changes/journal.ts';
import { statementsOf } from '../changes/statements.ts';
import type { Batch, Reader, Statement } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import * as t from '../schema.ts';
import { type Trouble, TroubleError } from '../trouble.ts';
import { type Dangling, danglingWithout } from './dangling.ts';
import type { LoadStep } from './load-step.ts';
import { goingIn, readGround, rowChanges, type State, touchedBy } from './pack-rows.ts';

/**
 * What is kept of the atlas beside itself and must never be older than it: made of the atlas as the change leaves it, read beforehand, and
 * written last in the same batch.
 */
export type Alongside = (reader: Reader, after: Atlas) => Promise<Iterable<Statement>>;

interface PackChange {
  readonly pack: string;
  /** What the atlas holds of the pack, and what it is to hold; null: nothing. */
  readonly before: State | null;
  readonly after: (State & { readonly row: typeof t.packs.$inferInsert }) | null;
  readonly entry: Entry;
  /** What is told when others need what goes. */
  readonly needed: (dangling: Dangling) => Trouble;
  readonly step: (at: LoadStep) => void;
  readonly alongside: Alongside | null;
  /** The atlas as the change leaves it. */
  readonly atlas: () => Promise<Atlas>;
}

/** A change of all a pack says, as one batch that is guarded on the journal. Throws what `needed` says. */
export const planPackChange = async (
  reader: Reader,
  { pack, before, after, entry, needed, step, alongside, atlas }: PackChange,
): Promise<{ readonly batch: Batch; readonly effect: Effect }> => {
  const head = await headOf(reader);
  const effect = changeBetween(before?.cells ?? new Map(), after?.cells ?? new Map());
  const touched = touchedBy(effect);
  const ground = await readGround(reader, pack, touched, after?.pack ?? null);
  const dangling = await danglingWithout(reader, pack, goingIn(effect, ground));
  if (dangling !== null) throw new TroubleError(needed(dangling));
  const journal = entryStatements(head, effect, entry);
  const also = alongside === null ? [] : await alongside(reader, await atlas());
  const statements = function* (): Generator<Statement> {
    yield* statementsOf(rowChanges(before, after, touched, ground, step));
    if (after === null) yield statementOf(build.delete(t.packs).where(eq(t.packs.id, pack)));
    else yield* insertRows(t.packs, [after.row], overwriting(t.packs));
    yield* journal;
    yield* also;
    step('loaded');
  };
  return { batch: { guards: [atHead(head)], statements: { [Symbol.iterator]: statements } }, effect };
};
