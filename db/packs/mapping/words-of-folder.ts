import { readFile } from 'node:fs/promises';
import { join } from 'node:path';
import type { Atlas } from '../../../reasoner/index.ts';
import { fileOf, type Pack } from '../../atlas/pack.ts';
import type { Reader } from '../../driver/driver.ts';
import type { Asked } from '../../read/asked.ts';
import * as t from '../../schema.ts';
import { TroubleError } from '../../trouble.ts';
import { atlasOfPacks } from '../atlas-of-packs.ts';
import { readHeld, saidPack } from '../held.ts';
import { foldersFor, headIn } from '../leaning.ts';
import { type MappedWord, vocabularyLists, type WordProposed } from '../mapped-word.ts';
import { readFolder } from '../read.ts';
import { standingOf } from '../standing.ts';
import { besideAsBrought, mappingOf } from './mapping-of.ts';
import { type Coming, proposedWords } from './propose.ts';

/**
 * The words of a folder's pack, and of those that would come with it, that the atlas may have under other ids, with what is proposed (P16); nothing is written. A pack that has faults is
 * read as far as it can be. Throws `pack-unreadable`, and `pack-invalid` where what it leans on is nowhere.
 * @param now what somebody says of them: the rest is proposed as it follows from that
 */
export const wordsOfFolder = async (
  reader: Reader,
  folder: string,
  asked: Asked,
  shipped: string | null = null,
  now: readonly MappedWord[] = [],
): Promise<readonly WordProposed[]> => {
  const rows = await reader.orm.select({ id: t.packs.id, mapped: t.packs.mapped }).from(t.packs).orderBy(t.packs.id);
  const folders = await foldersFor(folder, (id) => rows.some((row) => row.id === id), shipped);
  if (!folders.ok) throw new TroubleError(folders.trouble);
  if (!(await Promise.all(folders.value.map(bringsWords))).includes(true)) return [];
  const standing = standingOf(reader, rows);
  const coming: Coming[] = [];
  const brought: Pack[] = [];
  const heads = await Promise.all(folders.value.map(headIn));
  const ids = new Set(heads.map((head) => head?.id));
  const others = (await standing.but(null)).filter(({ head }) => !ids.has(head.id));
  for (const [index, each] of folders.value.entries()) {
    const head = heads[index] ?? null;
    const mapping = mappingOf(head, [], [], others);
    const beside = async (): Promise<Atlas> => besideAsBrought(brought, others);
    const read = await readFolder(each, {
      ...asked,
      beside,
      limit: 1,
      ...(mapping === null ? {} : { mapping: { own: [], leaned: mapping.leaned } }),
    });
    if (!read.ok) throw new TroubleError(read.trouble);
    if (head === null || read.value.head === null) continue;
    const { lists, parts } = read.value;
    const held = await readHeld(reader, head.id);
    const kept = head.mapped ? [] : (rows.find(({ id }) => id === head.id)?.mapped ?? []);
    coming.push({ id: head.id, files: lists.files, parts, kept, now, held: held === null ? null : saidPack(held) });
    brought.push({ head: read.value.head, ...lists.files, parts, allowed: lists.allowed, sheets: [] });
  }
  return proposedWords(coming, atlasOfPacks(others));
};

/** Whether a folder's pack brings words but its sources: most bring none, and need not be read for them. */
const bringsWords = async (folder: string): Promise<boolean> => {
  for (const list of vocabularyLists) {
    const text = list === 'sources' ? '' : await readFile(join(folder, fileOf(list)), 'utf8').catch(() => '');
    if (/\{/.test(text)) return true;
  }
  return false;
};
