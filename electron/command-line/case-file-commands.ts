import { randomUUID } from 'node:crypto';
import { readFile, stat } from 'node:fs/promises';
import { asId, type SheetId } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { saySharedLetter } from '../../reasoner/plain/shared-letter.ts';
import { counted } from '../../reasoner/plain/text.ts';
import { refusal } from '../bridge/reply.ts';
import { numbered } from './case-commands.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { unread } from './given-text.ts';
import { dataOption, formatOption, whoOption } from './option.ts';
import { jsonText, sayTrouble } from './terminal.ts';
import { withStore } from './with-atlas.ts';
import { writeWhole } from './write-whole.ts';

/** `kinplate case write`: a whole case with its photographs in one file. */
export const caseWriteCommand = command({
  name: 'case write',
  words: { shown: '<number> <out.zip>', least: 2, most: 2, otherwise: 'case write takes the number of a case, and the file to write.' },
  options: dataOption,
  help: ['a whole case with its photographs in one file'],
  run: ({ words: [number = '', file = ''], options: { data } }, terminal) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const found = await numbered(store, number);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      const written = await store.cases.write(found.value.sheet);
      if (!written.ok) return sayTrouble(terminal, written.trouble);
      const kept = await writeWhole(file, written.value.bytes);
      if (!kept.ok) return sayTrouble(terminal, kept.trouble);
      terminal.err(`· ${file}: case ${number}, ${counted(found.value.photos, 'photograph')}`);
      return exitCodes.stands;
    }),
});

/** `kinplate case take-in`: such a file put into this shop's atlas, whole or not at all. */
export const caseTakeInCommand = command({
  name: 'case take-in',
  words: { shown: '<file.zip>', least: 1, most: 1, otherwise: 'case take-in takes one file, as case write writes it.' },
  options: { 'as-new': { kind: 'flag' }, ...whoOption, ...formatOption, ...dataOption },
  help: ['a case out of such a file, under the next number of this shop; --as-new where a case of its sheet is here already'],
  run: ({ words: [file = ''], options: { 'as-new': asNew, who = '', format, data } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const bytes = await bytesOf(file);
      if (!Buffer.isBuffer(bytes)) return sayTrouble(terminal, bytes.trouble);
      const as = asNew ? asId<SheetId>(`sheet-${randomUUID()}`) : null;
      const taken = await store.cases.takeIn(bytes, file, { as, who: who.slice(0, 200) });
      if (!taken.ok) {
        if (taken.trouble.code === 'case-is-here') {
          const seen = await store.cases.look(bytes, file);
          if (seen.ok && seen.value.here !== null)
            for (const [where, one] of [
              ['here', seen.value.here],
              ['in the file', seen.value],
            ] as const)
              terminal.err(
                `${where}: case ${one.number}, ${one.title === '' ? 'untitled unit' : one.title}, saved ${one.savedAt ?? 'before cases were kept'}, ${counted(one.observations, 'entry', 'entries')}, ${counted(one.photos, 'photograph')}`,
              );
          terminal.err('With --as-new it is taken in as a case of its own.');
        }
        return sayTrouble(terminal, taken.trouble);
      }
      if (taken.value.elsewhere !== null) terminal.err(saySharedLetter(file, taken.value.elsewhere));
      terminal.out(format === 'json' ? jsonText(taken.value) : `${taken.value.number}\t${taken.value.sheet}\n`);
      return exitCodes.stands;
    }),
});

/** Its size is asked for before it is read. */
const bytesOf = async (file: string): Promise<Buffer | ReturnType<typeof refusal>> => {
  try {
    const { size } = await stat(file);
    if (size > limits.parcelBytes)
      return refusal(
        'case-file-too-large',
        file,
        `${file} is ${Math.ceil(size / 1024 / 1024)} MiB; the most is ${limits.parcelBytes / 1024 / 1024} MiB. Nothing was taken in.`,
      );
    return await readFile(file);
  } catch (error) {
    return unread(file, error);
  }
};
