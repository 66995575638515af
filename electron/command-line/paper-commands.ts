import { readFile } from 'node:fs/promises';
import path from 'node:path';
import type { DocumentAbout, FileId, Outcome, ShopDocument } from '../../db/index.ts';
import { asId, type PartId, type SourceId } from '../../reasoner/index.ts';
import { refusal, well } from '../bridge/reply.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { unread } from './given-text.ts';
import { dataOption, formatOption, whoOption } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withStore } from './with-atlas.ts';
import { writeWhole } from './write-whole.ts';

const aboutOptions = { part: { kind: 'text', value: '<id>' }, source: { kind: 'text', value: '<id>' } } as const;

const aboutOf = ({ part, source }: { readonly part?: string | undefined; readonly source?: string | undefined }): DocumentAbout | null =>
  part !== undefined
    ? { kind: 'part', id: asId<PartId>(part) }
    : source !== undefined
      ? { kind: 'source', id: asId<SourceId>(source) }
      : null;

/** `kinplate papers`: what the shop keeps beside sources and parts. */
export const papersCommand = command({
  name: 'papers',
  options: { ...aboutOptions, ...formatOption, ...dataOption },
  inPlaceOfWords: 'paper add keeps one, paper write gives one back',
  help: ['Papers beside parts and sources, one a line; of one of them with --part or --source.'],
  run: ({ options }, terminal) =>
    withStore({ pack: [], data: options.data }, 'read', terminal, async ({ documents }) => {
      const about = aboutOf(options);
      const listed = await (about === null ? documents.list() : documents.of([about]));
      if (!listed.ok) return sayTrouble(terminal, listed.trouble);
      terminal.out(options.format === 'json' ? jsonText(listed.value) : listed.value.map((one) => `${textOf(one)}\n`).join(''));
      return exitCodes.stands;
    }),
});

const textOf = ({ about, file, name, title, type, size }: ShopDocument): string =>
  [file, about.kind, about.id, name, title, type ?? 'lost', size === null ? '' : `${size} bytes`].join('\t');

/** `kinplate paper add`. */
export const paperAddCommand = command({
  name: 'paper add',
  words: { shown: '<file>', least: 1, most: 1, otherwise: 'Name the file to keep.' },
  options: { ...aboutOptions, title: { kind: 'text', value: '<words>' }, ...whoOption, ...dataOption },
  help: ['Keeps a PDF, a JPEG or PNG picture, or plain text beside a part or a source. No pack takes it along.'],
  run: async ({ words: [file = ''], options }, terminal) => {
    const about = aboutOf(options);
    if (about === null || (options.part !== undefined && options.source !== undefined))
      return sayUsage(terminal, 'Name what it is about: --part <id>, or --source <id>.');
    const bytes = await readFile(file).catch((error: unknown) => unread(file, error));
    if ('ok' in bytes) return sayTrouble(terminal, bytes.trouble);
    return withStore({ pack: [], data: options.data }, 'write', terminal, async ({ documents }) => {
      const added = await documents.add(about, { name: path.basename(file), title: options.title ?? '', bytes }, options.who ?? '');
      if (!added.ok) return sayTrouble(terminal, added.trouble);
      terminal.out(`${added.value.at(-1)?.file ?? ''}\n`);
      return exitCodes.stands;
    });
  },
});

/** `kinplate paper write`. */
export const paperWriteCommand = command({
  name: 'paper write',
  words: { shown: '<hash> <file>', least: 2, most: 2, otherwise: 'Name a paper by its hash, as papers lists it, and the file to write.' },
  options: dataOption,
  help: ['Writes a paper into a file, to the byte, whole or not at all.'],
  run: ({ words: [hash = '', file = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async ({ documents }) => {
      const named: Outcome<FileId> = /^[0-9a-f]{64}$/.test(hash)
        ? well(hash as FileId)
        : refusal('not-found', hash, `“${hash}” is no hash of a paper; kinplate papers lists them.`);
      if (!named.ok) return sayTrouble(terminal, named.trouble);
      const found = await documents.bytes(named.value);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      const written = await writeWhole(file, found.value.bytes);
      return written.ok ? exitCodes.stands : sayTrouble(terminal, written.trouble);
    }),
});
