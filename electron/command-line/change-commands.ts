import { z } from 'zod';
import {
  type AlteredSeen,
  type CarriedSeen,
  type ChangeEntry,
  type ChangeMade,
  type ChangeSeen,
  type Count,
  type Edit,
  type Outcome,
  parseJson,
  type Store,
} from '../../db/index.ts';
import type { CasesWould } from '../../reasoner/index.ts';
import { limits } from '../../reasoner/plain/limits.ts';
import { edits } from '../bridge/change-calls.ts';
import { refusal, well } from '../bridge/reply.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { givenName, givenText, jsonFault } from './given-text.ts';
import { judgeCases, sayCases } from './judge-cases.ts';
import { dataOption, formatOption, type OptionSpecs, sayingOptions } from './option.ts';
import { jsonText, sayTrouble, sayUsage, type Terminal } from './terminal.ts';
import { withStore } from './with-atlas.ts';

const file = {
  words: { shown: '<edits.json>', least: 1, most: 1, otherwise: 'name one file of edits, or - for standard input.' },
} as const;

/** Saved cases are judged by the atlas as it is and as it would be. It may take long where there are many. */
const casesOption = { cases: { kind: 'flag' } } as const satisfies OptionSpecs;

/** `kinplate change look`: what edits would come to; nothing is written. */
export const changeLookCommand = command({
  name: 'change look',
  ...file,
  options: { ...casesOption, ...formatOption, ...dataOption },
  help: ['what edits of the atlas would come to, or every fault of them', '(--cases: and what saved cases would be told then)'],
  run: ({ words: [from = ''], options: { cases, format, data } }, terminal, setting) =>
    withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const read = await editsIn(from, terminal);
      if (!read.ok) return sayTrouble(terminal, read.trouble);
      const seen = await store.changes.look(read.value);
      if (!seen.ok) return sayTrouble(terminal, seen.trouble);
      const judged = cases ? await judgeCases(store, () => store.changes.after(read.value), setting) : well(null);
      return judged.ok ? saySeen(seen.value, judged.value, format, terminal) : sayTrouble(terminal, judged.trouble);
    }),
});

/** `kinplate change make`: the same made, as one change, all of it or nothing. */
export const changeMakeCommand = command({
  name: 'change make',
  ...file,
  options: { ...sayingOptions, source: { kind: 'text', value: '<from where>' }, ...formatOption, ...dataOption },
  help: ['makes them as one change, all or nothing, and prints its number'],
  run: ({ words: [from = ''], options: { who = '', why = '', source = '', format, data } }, terminal) =>
    withStore({ pack: [], data }, 'write', terminal, async (store) => {
      const read = await editsIn(from, terminal);
      if (!read.ok) return sayTrouble(terminal, read.trouble);
      const head = await store.changes.head();
      if (!head.ok) return sayTrouble(terminal, head.trouble);
      const made = await store.changes.make(read.value, { who, why, source, head: head.value });
      return made.ok ? sayMade(made.value, format, terminal) : sayTrouble(terminal, made.trouble);
    }),
});

/** `kinplate changes`: the history, the newest first. */
export const changesCommand = command({
  name: 'changes',
  inPlaceOfWords: 'name one entry with --of',
  options: { of: { kind: 'text', value: '<list>/<id>' }, limit: { kind: 'text', value: '<n>' }, ...formatOption, ...dataOption },
  help: ['every change of the atlas: who, when, why; of one entry with --of parts/<id>'],
  run: ({ options: { of, limit = '200', format, data } }, terminal) => {
    const many = Number(limit);
    if (!Number.isInteger(many) || many < 1) return sayUsage(terminal, `--limit is “${limit}”. It takes a whole number above 0.`);
    const [list, id] = of?.split(/\/(.*)/s) ?? [];
    if (of !== undefined && (list === undefined || id === undefined || id === ''))
      return sayUsage(terminal, `--of is “${of}”. It takes a list and an id, as parts/cw-9.`);
    return withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const found = await store.changes.list(null, many, list === undefined || id === undefined ? null : { list, id });
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      terminal.out(format === 'json' ? jsonText(found.value) : found.value.map((each) => `${lineOf(each)}\n`).join(''));
      return exitCodes.stands;
    });
  },
});

/** `kinplate change show`: one change with what it altered. */
export const changeShowCommand = command({
  name: 'change show',
  words: { shown: '<number>', least: 1, most: 1, otherwise: 'change show takes the number of a change, as changes lists it.' },
  options: { ...formatOption, ...dataOption },
  help: ['one change with everything it altered'],
  run: ({ words: [number = ''], options: { format, data } }, terminal) =>
    withChange(number, data, 'read', terminal, async (store, change) => {
      const found = await store.changes.one(change);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      if (format === 'json') terminal.out(jsonText(found.value));
      else {
        terminal.out(`${lineOf(found.value)}\n`);
        for (const cell of found.value.altered) terminal.out(`${cellLine(cell)}\n`);
        sayRest(found.value.altered.length, found.value.alteredInAll, terminal);
      }
      return exitCodes.stands;
    }),
});

/** `kinplate change undo`: a change taken back, where nothing later rests on it. */
export const changeUndoCommand = command({
  name: 'change undo',
  words: { shown: '<number>', least: 1, most: 1, otherwise: 'change undo takes the number of a change, as changes lists it.' },
  options: { rest: { kind: 'flag' }, look: { kind: 'flag' }, ...casesOption, ...sayingOptions, ...formatOption, ...dataOption },
  help: [
    'takes it back where nothing later rests on it (--rest: all of it but that;',
    '--look: only tells what that would come to, with --cases what saved cases would be told)',
  ],
  run: ({ words: [number = ''], options: { rest, look, cases, who = '', why = '', format, data } }, terminal, setting) => {
    if (cases && !look) return sayUsage(terminal, '--cases goes with --look: nothing is judged by a change that is made at once.');
    return withChange(number, data, look ? 'read' : 'write', terminal, async (store, change) => {
      if (look) {
        const seen = await store.changes.lookUndo(change);
        if (!seen.ok) return sayTrouble(terminal, seen.trouble);
        for (const { list, id, field, line } of format === 'json' ? [] : seen.value.disputes)
          terminal.err(`in the way: ${[list, id, field, line].filter((step) => step !== null).join('/')}`);
        const judged = cases ? await judgeCases(store, () => store.changes.afterUndo(change), setting) : well(null);
        return judged.ok ? saySeen(seen.value, judged.value, format, terminal) : sayTrouble(terminal, judged.trouble);
      }
      const head = await store.changes.head();
      if (!head.ok) return sayTrouble(terminal, head.trouble);
      const undone = await store.changes.undo(change, rest, { who, why, head: head.value });
      return undone.ok ? sayMade(undone.value, format, terminal) : sayTrouble(terminal, undone.trouble);
    });
  },
});

/** `kinplate atlas write`: the atlas as it stood at the end of a day, pack by pack. */
export const atlasWriteCommand = command({
  name: 'atlas write',
  words: { shown: '<folder>', least: 1, most: 1, otherwise: 'atlas write takes a folder that is not there yet.' },
  options: { on: { kind: 'text', value: '<day>' }, ...dataOption },
  help: ['every pack of the atlas, the shop’s words among it, into a new folder;', '--on <day>: as it stood at the end of that day'],
  run: ({ words: [folder = ''], options: { on, data } }, terminal) => {
    const until = on === undefined ? endOfTime : endOf(on);
    if (until === null) return sayUsage(terminal, `--on is “${on}”. It takes a day as 2026-03-04.`);
    return withStore({ pack: [], data }, 'read', terminal, async (store) => {
      const written = await store.changes.writeStood(until.toISOString(), folder);
      if (!written.ok) return sayTrouble(terminal, written.trouble);
      terminal.out(written.value.map((pack) => `${pack}\n`).join(''));
      return exitCodes.stands;
    });
  },
});

const endOfTime = new Date('9999-12-31T23:59:59.999Z');

/** The last moment of a day here; null where it is none. */
const endOf = (day: string): Date | null => {
  if (!z.iso.date().safeParse(day).success) return null;
  const [year = 0, month = 0, date = 0] = day.split('-').map(Number);
  return new Date(year, month - 1, date, 23, 59, 59, 999);
};

const withChange = (
  number: string,
  data: string | undefined,
  use: 'read' | 'write',
  terminal: Terminal,
  work: (store: Store, change: number) => Promise<ExitCode>,
): Promise<ExitCode> | ExitCode => {
  const change = Number(number);
  if (!Number.isInteger(change) || change < 1) return sayUsage(terminal, `“${number}” is no number of a change.`);
  return withStore({ pack: [], data }, use, terminal, (store) => work(store, change));
};

/** The edits of a file, as `changes.make` takes them over the bridge. */
const editsIn = async (from: string, terminal: Terminal): Promise<Outcome<readonly Edit[]>> => {
  const text = await givenText(from, terminal);
  if (!text.ok) return text;
  const name = givenName(from);
  if (text.value.length > limits.sheetLetters)
    return refusal('edit-invalid', from, `${name} has ${text.value.length} letters; the most is ${limits.sheetLetters}.`);
  const parsed = parseJson(text.value, edits);
  if (parsed.ok) return parsed;
  const fault = jsonFault(
    name,
    parsed,
    (column) =>
      `${column === null ? 'a list of edits' : 'an edit'}: {"list", "put"}, {"list", "drop"} (with "into" or without), {"allow"} or {"disallow"}`,
  );
  return refusal('edit-invalid', fault.place, `${fault.sentence} Nothing was changed.`);
};

/** @param cases what saved cases would be told, where that was asked and the change has no faults */
const saySeen = (seen: ChangeSeen, cases: CasesWould | null, format: 'text' | 'json', terminal: Terminal): ExitCode => {
  const stopped = cases !== null && !cases.complete;
  const code = seen.faults.length > 0 ? exitCodes.badInput : stopped ? exitCodes.stopped : exitCodes.stands;
  if (format === 'json') {
    terminal.out(jsonText(cases === null ? seen : { ...seen, cases }));
    return code;
  }
  for (const { sentence } of seen.faults) terminal.err(sentence);
  if (seen.faults.length > 0) return code;
  terminal.out(`${countsLine(seen.counts)}\n${carriedLines(seen.carried)}`);
  for (const cell of seen.cells) terminal.out(`${cellLine(cell)}\n`);
  sayRest(seen.cells.length, seen.cellsInAll, terminal);
  if (cases !== null) sayCases(cases, terminal);
  return code;
};

const sayMade = (made: ChangeMade, format: 'text' | 'json', terminal: Terminal): ExitCode => {
  if (format === 'json') terminal.out(jsonText(made));
  else
    terminal.out(
      made.change === null
        ? 'The atlas says all of that already. Nothing was changed.\n'
        : `Change ${made.change}: ${countsLine(made.counts)}\n${carriedLines(made.carried)}`,
    );
  return exitCodes.stands;
};

const sayRest = (shown: number, inAll: number, { out }: Terminal): void => {
  if (inAll > shown) out(`… and ${inAll - shown} more.\n`);
};

const countsLine = (counts: readonly Count[]): string =>
  counts.length === 0
    ? 'nothing changes.'
    : `${counts
        .map(
          ({ of, added, altered, removed }) =>
            `${of} ${[added > 0 ? `+${added}` : '', altered > 0 ? `~${altered}` : '', removed > 0 ? `-${removed}` : ''].filter((each) => each !== '').join(' ')}`,
        )
        .join(', ')}.`;

/** What the shop keeps that goes along, and what stays: `carried over, parts/cw-9 to parts/cw-9b: samples 2, stock 1`. */
const carriedLines = (carried: readonly CarriedSeen[]): string =>
  carried
    .flatMap(({ list, from, to, rows, stays }) => {
      const way = `${list}/${from} to ${list}/${to}`;
      return [
        ...(rows.length === 0 ? [] : [`carried over, ${way}: ${rows.map(({ of, many }) => `${of} ${many}`).join(', ')}\n`]),
        ...stays.map((stay) =>
          stay.of === 'papers'
            ? `not carried over, ${way}: paper “${stay.title}”, which lies beside both\n`
            : `not carried over, ${way}: price ${stay.amount} ${stay.money}, for ${stay.kept.amount} ${stay.kept.money} is asked there\n`,
        ),
      ];
    })
    .join('');

const lineOf = ({ change, at, kind, packs, who, why, source, cells, undoes, undoneBy }: ChangeEntry): string =>
  [
    change,
    at,
    kind === 'undone' ? `undone ${undoes}` : kind,
    packs.join(' '),
    who ?? '',
    why ?? '',
    source ?? '',
    `${cells} cells`,
    undoneBy === null ? '' : `undone by ${undoneBy}`,
  ].join('\t');

const cellLine = ({ list, id, field, line, before, after }: Omit<AlteredSeen, 'said'>): string =>
  `${[list, id, field, line].filter((step) => step !== null).join('/')}\t${textOf(before)}\t${textOf(after)}`;

const textOf = (is: unknown): string => (is === null ? '' : JSON.stringify(is));
