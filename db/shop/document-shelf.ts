import { and, eq } from 'drizzle-orm';
import type { PartId, SourceId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import type { Door } from '../driver/door.ts';
import type { Guard, Reader } from '../driver/driver.ts';
import { build, insertRows, statementOf } from '../driver/statements.ts';
import { cleanPhoto } from '../photos/clean-photo.ts';
import * as t from '../schema.ts';
import { done, failed, type Outcome, TroubleError, trouble } from '../trouble.ts';
import { type FileBytes, fileBytes, fileIdOf, fileKept } from './kept-files.ts';
import type { DocumentAbout, FileId, ShopDocument } from './settings.ts';

/** A paper on its way in. */
export interface DocumentToKeep {
  /** Of its file. */
  readonly name: string;
  /** What it is, in words: `the supplier’s sheet`. */
  readonly title: string;
  readonly bytes: Buffer;
}

/**
 * Papers the shop keeps beside a source or a part of the atlas: a supplier's sheet, a drawing, a letter. They stay in the shop's atlas file: no pack takes them along. What is about a source or a
 * part that goes with its pack stays, and is there again when that comes back.
 */
export interface DocumentShelf {
  /** Papers of these, in the turn they were added. */
  of(about: readonly DocumentAbout[]): Promise<Outcome<readonly ShopDocument[]>>;
  /** All there are. */
  list(): Promise<Outcome<readonly ShopDocument[]>>;
  /**
   * Keeps one: a PDF, a picture (cleaned as photographs are), or plain text in UTF-8. The same file beside several things is kept once; added again to the same, its title is written anew.
   * Troubles: `document-unreadable`, `document-too-large`, `documents-too-many`, `photo-damaged`, `not-found`.
   */
  add(about: DocumentAbout, document: DocumentToKeep, who: string): Promise<Outcome<readonly ShopDocument[]>>;
  /** Takes one away; its bytes go with the last place it is in. Trouble: `not-found`. */
  remove(about: DocumentAbout, file: FileId): Promise<Outcome<readonly ShopDocument[]>>;
  /** Troubles: `not-found`, and `photo-altered` where the bytes are no longer those that were saved. */
  bytes(file: FileId): Promise<Outcome<FileBytes>>;
}

export const documentShelf = ({ read, write, now }: Door): DocumentShelf => {
  const of = (about: readonly DocumentAbout[]) => read((reader) => documentsOf(reader, about));
  return {
    of,
    list: () => read((reader) => documentsOf(reader, null)),
    add: async (about, { name, title, bytes }, who) => {
      const kept = readDocument(name, bytes);
      if (!kept.ok) return kept;
      const file = fileIdOf(kept.value.bytes);
      const at = now().toISOString();
      const added = await write(async (reader) => {
        const stands = await thingStands(reader, about);
        const there = await documentsOf(reader, [about]);
        const n = there.find((one) => one.file === file)?.n ?? Math.max(0, ...there.map((one) => one.n)) + 1;
        return {
          batch: {
            guards: [stands, ...roomFor(about, file, kept.value.bytes.length)],
            statements: [
              fileKept(file, kept.value.type, kept.value.bytes),
              ...insertRows(
                t.documents,
                [{ about: about.kind, of: about.id, file, n, name, title, at, who }],
                'on conflict (about, of, file) do update set name = excluded.name, title = excluded.title, at = excluded.at, who = excluded.who',
              ),
            ],
          },
          value: null,
        };
      });
      return added.ok ? of([about]) : added;
    },
    remove: async (about, file) => {
      const removed = await write(async () => ({
        batch: {
          guards: [
            {
              sql: 'select count(*) from documents where about = ? and of = ? and file = ?',
              params: [about.kind, about.id, file],
              refusal: trouble('not-found', `file ${file}`, 'There is no such paper; it was taken away.'),
            },
          ],
          statements: [
            statementOf(
              build
                .delete(t.documents)
                .where(and(eq(t.documents.about, about.kind), eq(t.documents.of, about.id), eq(t.documents.file, file))),
            ),
          ],
        },
        value: null,
      }));
      return removed.ok ? of([about]) : removed;
    },
    bytes: (file) => read((reader) => fileBytes(reader, file, 'The paper')),
  };
};

const documentsOf = async (reader: Reader, about: readonly DocumentAbout[] | null): Promise<ShopDocument[]> => {
  const rows = await reader.all<Omit<ShopDocument, 'about'> & { readonly kind: 'source' | 'part'; readonly id: string }>(
    `select d.about as kind, d.of as id, d.file, d.n, d.name, d.title, d.at, d.who, f.type, f.size
     from documents d left join kept_files f on f.id = d.file
     ${about === null ? '' : 'join json_each(?) j on d.about = j.value ->> 0 and d.of = j.value ->> 1'}
     order by ${about === null ? '' : 'j.key, '}d.about, d.of, d.n`,
    about === null ? [] : [JSON.stringify(about.map(({ kind, id }) => [kind, id]))],
  );
  return rows.map(({ kind, id, ...row }) => ({
    about: kind === 'part' ? { kind, id: id as PartId } : { kind, id: id as SourceId },
    ...row,
  }));
};

/** That the atlas has what a paper is about. Throws `not-found`. */
const thingStands = async (reader: Reader, { kind, id }: DocumentAbout): Promise<Guard> => {
  const table = kind === 'part' ? 'parts' : 'sources';
  const refusal = trouble('not-found', `${kind} ${id}`, `The atlas has no ${kind} “${id}”.`);
  const sql = `select count(*) from ${table} where id = ?`;
  const [found] = await reader.all<{ n: number }>(`select count(*) as n from ${table} where id = ?`, [id]);
  if (found?.n === 0) throw new TroubleError(refusal);
  return { sql, params: [id], refusal };
};

/** That it is not one too many, nor all of them too large: mending a damaged atlas holds them in memory. */
const roomFor = (about: DocumentAbout, file: FileId, size: number): Guard[] => [
  {
    sql: 'select count(*) < ? from documents where about = ? and of = ? and file <> ?',
    params: [limits.documentsOfOne, about.kind, about.id, file],
    refusal: trouble(
      'documents-too-many',
      `${about.kind} ${about.id}`,
      `There are ${limits.documentsOfOne} papers beside it already, which is the most. Take one away first.`,
    ),
  },
  {
    sql: 'select coalesce(sum(size), 0) + ? <= ? from kept_files where id <> ?',
    params: [size, limits.documentsBytes, file],
    refusal: trouble(
      'documents-too-many',
      `file ${file}`,
      `All papers together would be more than ${limits.documentsBytes / 1_048_576} MiB, which is the most. Take some away first.`,
    ),
  },
];

/** The bytes as they are kept, and what they are: told by what stands in them, never by the name. */
const readDocument = (name: string, bytes: Buffer): Outcome<{ readonly type: string; readonly bytes: Buffer }> => {
  if (bytes.length > limits.documentBytes)
    return failed(
      trouble(
        'document-too-large',
        name,
        `${name} is ${(bytes.length / 1_048_576).toFixed(1)} MiB; the most is ${limits.documentBytes / 1_048_576} MiB. Nothing was kept of it.`,
      ),
    );
  if (bytes.subarray(0, 5).toString('latin1') === '%PDF-') return done({ type: 'application/pdf', bytes });
  if ((bytes[0] === 0xff && bytes[1] === 0xd8) || bytes.subarray(1, 4).toString('latin1') === 'PNG') {
    const cleaned = cleanPhoto(bytes, name);
    return cleaned.ok ? done({ type: cleaned.value.type, bytes: cleaned.value.bytes }) : cleaned;
  }
  if (isText(bytes)) return done({ type: 'text/plain', bytes });
  return failed(
    trouble(
      'document-unreadable',
      name,
      `${name} is no paper Kinplate can keep: expected a PDF, a JPEG or PNG picture, or plain text in UTF-8. Nothing was kept of it.`,
    ),
  );
};

const isText = (bytes: Buffer): boolean => {
  if (bytes.length === 0 || bytes.includes(0)) return false;
  try {
    new TextDecoder('utf-8', { fatal: true }).decode(bytes);
    return true;
  } catch {
    return false;
  }
};
