import { eq } from 'drizzle-orm';
import type { Atlas } from '../../reasoner/index.ts';
import type { Pack } from '../atlas/pack.ts';
import { overwriting } from '../atlas/rows.ts';
import { changeBetween, type Effect } from '../changes/change.ts';
import { atHead, type Entry, entryOf, type Head, headOf } from '../changes/journal.ts';
import { noWords, saidCells } from '../changes/own-words.ts';
import { statementsOf } from '../changes/statements.ts';
import { wordStatements } from '../changes/word-rows.ts';
import type { Batch, Reader, Statement } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import { type FitEngine, fitStatements, readHeldFits } from '../graph/keep-fits.ts';
import { termsOf } from '../graph/search-terms.ts';
import * as t from '../schema.ts';
import { type Trouble, TroubleError } from '../trouble.ts';
import { type Dangling, danglingWithout } from './dangling.ts';
import { heldIn, type Numbering, numberedToo, numbersIn, readNextTerm, readNumbering, readTerms } from './ground.ts';
import type { LoadStep } from './load-step.ts';
import { goingIn, rowChanges, type State, touchedBy } from './pack-rows.ts';

/**
 * What is kept of the atlas beside itself and must never be older than it: made of the atlas as the change leaves it, read beforehand, and
 * written last in the same batch.
 */
export type Alongside = (reader: Reader, after: Atlas) => Promise<Iterable<Statement>>;

/** Fits are kept so; nothing is where nobody judges them. */
export const keepingFits = (fitEngine: FitEngine | undefined): Alongside | null =>
  fitEngine === undefined ? null : async (reader, after) => fitStatements(await readHeldFits(reader), after, fitEngine);

interface PackChange {
  readonly pack: string;
  /** What the atlas holds of the pack, and what it is to hold; null: nothing. */
  readonly before: State | null;
  readonly after: (State & { readonly row: typeof t.packs.$inferInsert }) | null;
  /** The other packs as they stand when this is written. */
  readonly others: readonly Pack[];
  readonly entry: Entry;
  /** What is told when others need what goes; null where that was asked of all packs together. */
  readonly needed: ((dangling: Dangling) => Trouble) | null;
  readonly step: (at: LoadStep) => void;
}

/** What is planned but not yet written, as far as the next change of the same batch rests on it. */
export interface Ahead {
  /** The journal's last entry as it is read: what the whole batch is guarded on. */
  readonly read: Head;
  readonly head: Head;
  readonly numbering: Numbering;
  readonly nextTerm: number;
}

/** @param known what of it was read already: the journal's last entry, and the numbering of what the changes write; else all there is is read */
export const nothingAhead = async (
  reader: Reader,
  { head: at, numbering }: { readonly head?: Head; readonly numbering?: Numbering | undefined } = {},
): Promise<Ahead> => {
  const head = at ?? (await headOf(reader));
  return { read: head, head, numbering: numbering ?? (await readNumbering(reader)), nextTerm: await readNextTerm(reader) };
};

export interface PlannedChange {
  readonly effect: Effect;
  readonly statements: () => Iterable<Statement>;
  /** For the next one. */
  readonly ahead: Ahead;
}

/** A change of all a pack says. Throws what `needed` says. */
export const planPackChange = async (
  reader: Reader,
  ahead: Ahead,
  { pack, before, after, others, entry, needed, step }: PackChange,
): Promise<PlannedChange> => {
  const effect = changeBetween(before?.cells ?? new Map(), after?.cells ?? new Map());
  const touched = touchedBy(effect);
  const numbering = numberedToo(ahead.numbering, after?.pack ?? null);
  const ground = {
    pack,
    numbers: numbersIn(numbering),
    heldByOthers: heldIn(others),
    terms: await readTerms(reader, pack, touched),
    nextTerm: ahead.nextTerm,
    termsAfter: after === null ? [] : termsOf(after.pack),
  };
  const dangling = needed === null ? null : await danglingWithout(reader, pack, goingIn(effect, ground));
  if (needed !== null && dangling !== null) throw new TroubleError(needed(dangling));
  const [were, are] = [before?.words ?? noWords, after?.words ?? noWords];
  const journal = entryOf(ahead.head, together(effect, changeBetween(saidCells(were), saidCells(are))), entry);
  const statements = function* (): Generator<Statement> {
    yield* statementsOf(rowChanges(before, after, touched, ground, step));
    yield* wordStatements(pack, were, are);
    if (after === null) yield statementOf(build.delete(t.packs).where(eq(t.packs.id, pack)));
    else yield* insertRows(t.packs, [after.row], overwriting(t.packs));
    yield* journal.statements;
  };
  const nextTerm = ahead.nextTerm + ground.termsAfter.length;
  return { effect, statements, ahead: { read: ahead.read, head: journal.head, numbering, nextTerm } };
};

/** Mostly there are no words, and an effect is as large as what it changes. */
const together = (effect: Effect, ofWords: Effect): Effect => (ofWords.size === 0 ? effect : new Map([...effect, ...ofWords]));

/** Changes planned one after the other as one batch, guarded on the journal. @param also what is written last */
export const batchOf = (planned: readonly PlannedChange[], also: Iterable<Statement>, step: (at: LoadStep) => void): Batch => {
  const all = function* (): Generator<Statement> {
    for (const { statements } of planned) yield* statements();
    yield* also;
    step('loaded');
  };
  const [first] = planned;
  if (first === undefined) throw new Error('a batch of no changes');
  return { guards: [atHead(first.ahead.read)], statements: { [Symbol.iterator]: all } };
};
