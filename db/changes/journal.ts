import { deflateSync, inflateSync } from 'node:zlib';
import { asc, desc, eq } from 'drizzle-orm';
import { type CellKey, cellKept, type KeptCell, keptCell } from '../atlas/cell.ts';
import type { Guard, Reader, Statement } from '../driver/driver.ts';
import { insertRows } from '../driver/statements.ts';
import { type Version, versionOfTexts } from '../driver/version.ts';
import type { ChangeKind } from '../edits/seen.ts';
import * as t from '../schema.ts';
import { trouble } from '../trouble.ts';
import type { Altered, Effect } from './change.ts';
import { isSaid } from './own-words.ts';

/** The last entry of the journal: what a change is made of, and guarded on. */
export interface Head {
  readonly n: number;
  /** The empty text where nothing has been changed yet. */
  readonly id: Version | '';
}

export const headOf = async ({ orm }: Reader): Promise<Head> => {
  const [last] = await orm.select({ n: t.journal.n, id: t.journal.id }).from(t.journal).orderBy(desc(t.journal.n)).limit(1);
  return last === undefined ? { n: 0, id: '' } : { n: last.n, id: last.id as Version };
};

/** That nobody has changed the atlas since the journal was read. */
export const atHead = ({ id }: Head): Guard => ({
  sql: `select coalesce((select id from journal order by n desc limit 1), '') = ?`,
  params: [id],
  refusal: trouble(
    'atlas-changed',
    null,
    'The atlas was changed from elsewhere, again and again, while this change of it was made. Nothing was changed. Try it again.',
  ),
});

/** What is written of a change beside its effect (H2). */
export interface Entry {
  /** ISO time. */
  readonly at: string;
  readonly kind: ChangeKind;
  /** Whose word it changes: `pack small`. */
  readonly origin: string;
  readonly who: string | null;
  readonly why: string | null;
  /** Where it came from, in words. */
  readonly source: string | null;
  /** The first of the entries that are one change with it. */
  readonly together?: number | null;
  /** The first entry of the change that it undoes. */
  readonly undoes?: number | null;
}

/** How many cells are kept in one piece, so that no text grows past what a string may be. */
const cellsInPiece = 5000;
/** Up to this many characters a piece is kept as it is: a small change can be read with any tool, and is no smaller deflated. */
const keptPlain = 65_536;

/**
 * The entry of a change, to stand in the batch that makes it. Its id is the version of the entry before and of the effect: whoever writes on what is
 * no longer the last writes a parent a second time, which the table refuses.
 */
export const entryOf = (head: Head, effect: Effect, entry: Entry): { readonly head: Head; readonly statements: readonly Statement[] } => {
  const bodies: Buffer[] = [];
  // Each is hashed and deflated before the next is made: together they are as large as all a pack says.
  const texts = function* (): Generator<string> {
    yield `${head.id}\n${entry.origin}\n`;
    for (const text of piecesOf(effect)) {
      bodies.push(text.length > keptPlain ? deflateSync(text) : Buffer.from(text));
      yield text;
    }
  };
  const id = versionOfTexts(texts());
  const n = head.n + 1;
  let cells = 0;
  for (const key of effect.keys()) if (!isSaid(key)) cells += 1;
  const statements = [
    ...insertRows(t.journal, [{ n, id, parent: head.id, together: null, undoes: null, ...entry, cells }]),
    ...insertRows(
      t.journalEffects,
      bodies.map((body, piece) => ({ entry: n, piece, body })),
    ),
  ];
  return { head: { n, id }, statements };
};

function* piecesOf(effect: Effect): Generator<string> {
  let lines: unknown[] = [];
  for (const [key, { before, after }] of effect) {
    lines.push([key, keptCell(before), keptCell(after)]);
    if (lines.length < cellsInPiece) continue;
    yield JSON.stringify(lines);
    lines = [];
  }
  if (lines.length > 0) yield JSON.stringify(lines);
}

/** What an entry changed. */
export const effectOf = async ({ orm }: Reader, n: number): Promise<Effect> => {
  const pieces = await orm
    .select({ body: t.journalEffects.body })
    .from(t.journalEffects)
    .where(eq(t.journalEffects.entry, n))
    .orderBy(asc(t.journalEffects.piece));
  const effect = new Map<CellKey, Altered>();
  for (const { body } of pieces) {
    // JSON begins with a bracket; what was deflated begins with the zlib header (RFC 1950, 2.2), which none is.
    const text = (body[0] === 0x5b ? body : inflateSync(body)).toString('utf8');
    for (const [key, before, after] of JSON.parse(text) as [CellKey, KeptCell, KeptCell][])
      effect.set(key, { before: cellKept(before), after: cellKept(after) });
  }
  return effect;
};
