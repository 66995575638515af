import { type CaseFile, type CaseFilter, type CaseSummary, casesCsv, type Outcome, type Store } from '../../db/index.ts';
import { shopWordApart, shopWordHeading, shopWordSentences } from '../../reasoner/plain/shop-word.ts';
import { refusal, well } from '../bridge/reply.ts';
import { command } from './command.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import { atlasOptions, formatOption, type ValuesOf } from './option.ts';
import { jsonText, sayTrouble, sayUsage } from './terminal.ts';
import { withStore } from './with-atlas.ts';

const narrowing = {
  text: { kind: 'text', value: '<words>' },
  from: { kind: 'text', value: '<day>' },
  to: { kind: 'text', value: '<day>' },
  status: { kind: 'text', value: 'stands|open|"ruled out"|none' },
  'looked-by': { kind: 'text', value: '<who>' },
} as const;

/** `kinplate cases`: the cases that are asked for, one a line, as JSON, or as CSV. */
export const casesCommand = command({
  name: 'cases',
  options: { csv: { kind: 'flag' }, ...narrowing, ...formatOption, ...atlasOptions },
  inPlaceOfWords: 'case <number> prints one',
  help: ["The shop's cases, one a line, or as CSV."],
  run: ({ options }, terminal) => {
    const { csv, format } = options;
    if (csv && format === 'json') return sayUsage(terminal, 'cases is written as CSV or as JSON, not both.');
    const filter = filterOf(options);
    if (!filter.ok) {
      terminal.err(filter.trouble.sentence);
      return exitCodes.usage;
    }
    return withStore(options, 'read', terminal, async (store) => {
      const cases = await store.cases.list(filter.value);
      if (!cases.ok) return sayTrouble(terminal, cases.trouble);
      if (csv) terminal.out(casesCsv(cases.value));
      else if (format === 'json') terminal.out(jsonText(cases.value));
      else for (const one of cases.value) terminal.out(`${lineOf(one)}\n`);
      return exitCodes.stands;
    });
  },
});

/** Tabs and line ends of what was typed would break the line they stand in. */
const lineOf = (one: CaseSummary): string =>
  [
    one.number,
    one.openedOn,
    one.status ?? (one.claimed === null ? '(no claim)' : '(not judged)'),
    one.claimed ?? '',
    one.honest.join(' or '),
    one.customer,
    one.lookedBy,
    one.title,
    one.word === null ? '' : `${shopWordHeading(one.word)}: ${one.word.decision}`,
  ]
    .map((cell) => cell.replace(/\s+/g, ' '))
    .join('\t');

/** `kinplate case <number>`: one case in full; `--on` is the last day (`YYYY-MM-DD`) whose state is asked for. The exit code is the claim's, as it was kept. */
export const caseCommand = command({
  name: 'case',
  words: { shown: '<number>', least: 1, most: 1, otherwise: 'case takes the number of one case, as A-2026-0007.' },
  options: { on: { kind: 'text', value: '<day>' }, ...formatOption, ...atlasOptions },
  help: ["one case; its exit code is the claim's, as it was kept"],
  run: ({ words: [number = ''], options: { on, format, ...choice } }, terminal) => {
    if (on !== undefined && !isDay(on)) {
      terminal.err(`--on is a day as 2026-03-04, not “${on}”.`);
      return exitCodes.usage;
    }
    return withStore(choice, 'read', terminal, async (store) => {
      const found = await caseOf(store, number, on);
      if (!found.ok) return sayTrouble(terminal, found.trouble);
      terminal.out(format === 'json' ? jsonText(found.value) : caseText(found.value));
      return exitOf(found.value);
    });
  },
});

const caseOf = async (store: Store, number: string, on: string | undefined): Promise<Outcome<CaseFile>> => {
  const found = await numbered(store, number);
  return found.ok ? store.cases.open(found.value.sheet, on === undefined ? null : endOf(on)) : found;
};

/** The case of this number. */
export const numbered = async (store: Store, number: string): Promise<Outcome<CaseSummary>> => {
  const cases = await store.cases.list({ text: number.slice(0, 200) });
  if (!cases.ok) return cases;
  const found = cases.value.find((one) => one.number === number);
  return found === undefined ? refusal('not-found', number, `There is no case ${number}. kinplate cases lists them.`) : well(found);
};

const exitOf = ({ history }: CaseFile): ExitCode => {
  const verdict = history.at(-1)?.verdict;
  if (verdict?.kind === 'contradiction') return exitCodes.contradiction;
  switch (verdict?.claim?.status) {
    case 'ruled out':
      return exitCodes.ruledOut;
    case 'open':
      return exitCodes.open;
    default:
      return exitCodes.stands;
  }
};

const caseText = (file: CaseFile): string => {
  const last = file.history.at(-1);
  const verdict = last?.verdict;
  const section = (heading: string, rows: readonly string[]) =>
    rows.length === 0 ? [] : ['', `${heading}:`, ...rows.map((row) => `  - ${row}`)];
  return `${[
    `Case ${file.number}: ${file.title === '' ? 'untitled unit' : file.title}`,
    `Opened on ${file.openedOn}${file.asOf === null ? '' : `; as it stood at ${file.asOf}`} (sheet ${file.sheet})`,
    ...file.origins.map(({ number, at, who }) => `It was case ${number} elsewhere; taken in ${at}${who === '' ? '' : ` by ${who}`}`),
    ...(last?.sheet.serial === undefined ? [] : [`Serial number: ${last.sheet.serial}`]),
    ...(file.customer === '' ? [] : [`Customer: ${file.customer}`]),
    ...(file.lookedBy === '' ? [] : [`Looked at by: ${file.lookedBy}`]),
    ...(verdict === undefined ? ['No verdict was kept: the sheet was saved before cases were.'] : []),
    ...(verdict?.kind === 'contradiction' ? section('Entries contradict each other; nothing was judged', verdict.sentences) : []),
    ...(verdict?.kind === 'verdict'
      ? [
          '',
          `Honest name: ${verdict.honest.map(({ text }) => text).join(' or ')}`,
          ...(verdict.claim === null ? [] : [`Claimed: “${verdict.claim.text}”: ${verdict.claim.status}`]),
          `Judged under ${verdict.edition}`,
          ...section(
            'Open',
            verdict.open.map(({ text }) => text),
          ),
          ...section('Why', verdict.sentences),
          ...section('Cautions', verdict.cautions),
        ]
      : []),
    ...wordText(file),
    ...section(
      'Notes',
      file.notes.split('\n').filter((line) => line.trim() !== ''),
    ),
    ...section(
      'Photographs',
      file.photos.map(
        ({ caption, width, height, addedAt, id }) => `${caption || '(no caption)'}, ${width} × ${height}, added ${addedAt}, ${id}`,
      ),
    ),
    ...section(
      'History',
      file.history.map(
        ({ at, who, verdict: kept }) =>
          `${at}${who === '' ? '' : `, ${who}`}: ${kept.kind === 'verdict' ? `${kept.honest.map(({ text }) => text).join(' or ')}${kept.claim === null ? '' : `; “${kept.claim.text}” ${kept.claim.status}`}` : 'entries contradict each other'} (${kept.edition})`,
      ),
    ),
  ].join('\n')}\n`;
};

/** Apart from the verdict above it; then all that was said before, where there is more than what holds. */
const wordText = ({ words }: CaseFile): string[] => {
  const held = words.at(-1)?.word ?? null;
  const said = words.map(
    ({ at, who, word }) => `${at}${who === '' ? '' : `, ${who}`}: ${word === null ? 'taken back' : shopWordSentences(word).join(' ')}`,
  );
  return [
    ...(held === null ? [] : ['', `${shopWordHeading(held)}:`, ...[...shopWordSentences(held), shopWordApart].map((row) => `  ${row}`)]),
    ...(said.length > (held === null ? 0 : 1)
      ? ['', 'Decided beside the verdict, as it was written down:', ...said.map((row) => `  - ${row}`)]
      : []),
  ];
};

const statuses = ['stands', 'open', 'ruled out', 'none'] as const;

const filterOf = ({ text, from, to, status, 'looked-by': lookedBy }: ValuesOf<typeof narrowing>): Outcome<CaseFilter> => {
  for (const [name, day] of Object.entries({ from, to }))
    if (day !== undefined && !isDay(day)) return refusal('usage', `--${name}`, `--${name} is a day as 2026-03-04, not “${day}”.`);
  const wanted = statuses.find((one) => one === status);
  if (status !== undefined && wanted === undefined)
    return refusal('usage', '--status', `--status is one of ${statuses.join(', ')}, not “${status}”.`);
  return well({
    ...(text === undefined ? {} : { text }),
    ...(from === undefined ? {} : { from }),
    ...(to === undefined ? {} : { to }),
    ...(wanted === undefined ? {} : { status: wanted }),
    ...(lookedBy === undefined ? {} : { lookedBy }),
  });
};

/** A day there is: 31 June is none. */
const isDay = (text: string): boolean => {
  const found = /^(\d{4})-(\d\d)-(\d\d)$/.exec(text);
  if (found === null) return false;
  const [year, month, day] = found.slice(1).map(Number) as [number, number, number];
  const date = new Date(Date.UTC(year, month - 1, day));
  return date.getUTCMonth() === month - 1 && date.getUTCDate() === day;
};

/** The last instant of a day by this computer's clock. */
const endOf = (day: string): string => {
  const [year = 0, month = 1, date = 1] = day.split('-').map(Number);
  return new Date(new Date(year, month - 1, date + 1).getTime() - 1).toISOString();
};
