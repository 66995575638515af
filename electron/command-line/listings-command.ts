import { readdir, readFile, stat } from 'node:fs/promises';
import path from 'node:path';
import type { Outcome } from '../../db/index.ts';
import { listingsCsv } from '../../db/index.ts';
import {
  type Beside,
  type CompiledAtlas,
  judgeListings,
  type Listings,
  type ListingsItem,
  type ListingsRow,
} from '../../reasoner/index.ts';
import { plainnessPhrase } from '../../reasoner/plain/plainness-phrase.ts';
import { refusal, well } from '../bridge/reply.ts';
import { itemOf, itemsOfTable } from '../desk/handed-in.ts';
import { command } from './command.ts';
import { exitCodes } from './exit-codes.ts';
import { unread } from './given-text.ts';
import { atlasOptions } from './option.ts';
import { jsonText, sayTrouble, type Terminal } from './terminal.ts';
import { withAtlas } from './with-atlas.ts';

const formats = ['text', 'json', 'csv'] as const;

/** `kinplate listings`. Asked to stop, it stops where it is; what was judged until then is printed. */
export const listingsCommand = command({
  name: 'listings',
  words: {
    shown: '<folder|table|sheet>',
    least: 1,
    most: 1,
    otherwise: 'listings takes a folder, one table (.csv, .tsv, .txt, .xlsx) or one sheet file.',
  },
  options: { format: { kind: 'among', words: formats }, ...atlasOptions },
  help: ['many listings or sheets, plainest failure of the claim first'],
  run: async ({ words: [from = ''], options }, terminal, { listenForStop = () => () => false }) => {
    const stopped = listenForStop();
    const handed = await handedIn(from, terminal);
    if (!handed.ok) return sayTrouble(terminal, handed.trouble);
    return withAtlas(options, terminal, async (atlas) => {
      const running = judgeListings(
        atlas,
        handed.value.flatMap((one) => itemsIn(atlas, one)),
      );
      let step = running.next();
      while (!step.done) {
        const { judged, of } = step.value;
        if (judged % judgedToALine === 0 && judged < of) terminal.err(`· ${judged} of ${of} judged`);
        // Signals are heard between two of them.
        await new Promise(setImmediate);
        step = running.next(stopped());
      }
      terminal.out(printed(step.value, options.format));
      if (!step.value.complete) return exitCodes.stopped;
      return step.value.rows.some(({ standing }) => standing === 'unreadable') ? exitCodes.badInput : exitCodes.stands;
    });
  },
});

const judgedToALine = 25;

/** A file with its bytes; null where it cannot be read. */
interface Handed {
  readonly name: string;
  readonly bytes: Buffer | null;
}

/** Sheet files and tables by name; what else is in a folder is said, since it may have been meant. */
const handedIn = async (from: string, terminal: Terminal): Promise<Outcome<Handed[]>> => {
  const handOver = async (file: string, name: string): Promise<Handed> => ({ name, bytes: await readFile(file).catch(() => null) });
  const found = await stat(from).catch((error: unknown) => error as Error);
  if (found instanceof Error) return unread(from, found);
  if (!found.isDirectory()) return well([await handOver(from, path.basename(from))]);
  const entries = await readdir(from, { withFileTypes: true }).catch((error: unknown) => error as Error);
  if (entries instanceof Error) return unread(from, entries);
  const names = entries.map(({ name }) => name).sort();
  const isMeant = (name: string): boolean =>
    /\.(json|csv|tsv|txt|xls[xm])$/i.test(name) && entries.some((entry) => entry.name === name && entry.isFile());
  const others = names.filter((name) => !isMeant(name));
  if (others.length > 0) terminal.err(`· left alone, no sheet or table by its name: ${others.join(', ')}`);
  const files = names.filter(isMeant);
  if (files.length === 0)
    return refusal('sheet-unreadable', from, `${from} holds no sheet file (.json) and no table (.csv, .tsv, .txt, .xlsx).`);
  return well(await Promise.all(files.map((name) => handOver(path.join(from, name), name))));
};

/** A file that cannot be read, or a sheet file that is no UTF-8, is a row that says so, and stops nobody. */
const itemsIn = (atlas: CompiledAtlas, { name, bytes }: Handed): readonly ListingsItem[] => {
  if (bytes === null) return [{ source: name, faults: [`${name} cannot be read.`] }];
  if (!/\.json$/i.test(name)) return itemsOfTable(atlas, { name, bytes, matching: null });
  try {
    return [itemOf(atlas, { name, text: new TextDecoder('utf-8', { fatal: true }).decode(bytes) })];
  } catch {
    return [itemOf(atlas, { name, text: null })];
  }
};

const printed = (listings: Listings, format: (typeof formats)[number]): string => {
  switch (format) {
    case 'json':
      return jsonText(listings);
    case 'csv':
      return listingsCsv(listings);
    case 'text':
      return listingsText(listings);
  }
};

/** Each standing with its rows, plainest failure first. */
export const listingsText = ({ rows, complete, cautions, edition }: Listings): string => {
  const places = new Map(rows.map((row, index) => [row, index + 1]));
  const standings = [...new Set(rows.map(({ standing }) => standing))];
  const lines = [
    `${rows.length} ${rows.length === 1 ? 'row' : 'rows'}, atlas ${edition}${complete ? '' : '; stopped before all were judged'}`,
    ...standings.flatMap((standing) => {
      const here = rows.filter((row) => row.standing === standing);
      return ['', `${standing} (${here.length})`, ...here.flatMap((row) => rowText(row, places.get(row) ?? 0))];
    }),
    '',
    'Cautions:',
    ...cautions.map((caution) => `  - ${caution}`),
  ];
  return `${lines.join('\n')}\n`;
};

const rowText = ({ source, title, claimed, plainness, sentences, lookFirst, may, offer }: ListingsRow, place: number): string[] => [
  `  ${place}. ${[title === '' ? 'untitled' : title, claimed === null ? null : `offered as “${claimed}”`, source].filter((word) => word !== null).join(' · ')}`,
  ...(plainness === null ? [] : [`     ${plainnessPhrase(plainness)}`]),
  ...(offer === null ? [] : besideText(offer)),
  ...sentences.map((sentence) => `     ${sentence}`),
  ...(lookFirst === null ? [] : [`     ${lookFirst}`]),
  ...(may === null ? [] : [`     May be described as: ${may}.`]),
];

const besideText = ({ price, link }: Beside): string[] => {
  const said = [price === null ? null : `price ${price}`, link].filter((word) => word !== null);
  return said.length === 0 ? [] : [`     ${said.join(' · ')}`];
};
