import type { LearningPutBack, MendReport } from '../../db/index.ts';
import { counted } from '../../reasoner/plain/text.ts';

/** What mending came to, as text. `now` is what ages are told by. */
export const mendText = (report: MendReport, now: Date): string => `${linesOf(report, now).join('\n')}\n`;

const linesOf = (report: MendReport, now: Date): readonly string[] => {
  if (report.state === 'sound') return ['The atlas is sound. Nothing was changed.'];
  const { aside, faults, back, folder, lost, packs, learning, remarks } = report;
  return [
    ...(report.state === 'finished' ? ['Mending had been broken off; it is finished now.'] : []),
    ...(faults.length === 0 ? [] : [`What was wrong: ${faults[0]}${faults.length > 1 ? ` (and ${faults.length - 1} more)` : ''}`]),
    ...(aside === null ? [] : [`The damaged atlas was set aside as ${aside}, and a new one stands in its place.`]),
    `Own sheets on the shelf again: ${back.sheets}${folder === null ? '' : `; as files they are in ${folder}, with what has no place in the atlas`}.`,
    `Case files: ${counted(back.cases, 'number')}, ${counted(back.entries, 'state')} with ${back.entries === 1 ? 'its verdict' : 'their verdicts'}, and ${counted(back.photographs, 'photograph')}.`,
    ...(learning === null ? [] : learningLines(learning)),
    ...copiesLines(report, now),
    ...lostLines(lost),
    ...packLines(packs, now),
    ...remarks,
    ...incompleteLines(report.incomplete),
  ];
};

const learningLines = (learning: LearningPutBack): readonly string[] => {
  const { courses, learners, answers, topics, nameless, withoutCourse, answersMissing, rescheduled } = learning;
  const lines: string[] = [];
  if (learners > 0 || courses > 0)
    lines.push(
      `Learning: ${counted(learners, 'learner')}, ${counted(courses, 'course')}, ${counted(answers, 'answer')}, and when ${dueOf(topics)} again.`,
    );
  if (nameless.length > 0) lines.push(`The names of some learners could not be read; they are kept as ${nameless.join(', ')}.`);
  if (withoutCourse.length > 0)
    lines.push(`Their course could not be read, so these learners go on with the whole atlas: ${withoutCourse.join(', ')}.`);
  if (answersMissing > 0) lines.push(`At least ${counted(answersMissing, 'answer')} could not be read.`);
  if (rescheduled > 0) lines.push(`When ${dueOf(rescheduled)} again could not be read and was worked out again from the answers.`);
  return lines;
};

/** What came from elsewhere than its own rows, by where it came from. */
const copiesLines = ({ from }: MendReport, now: Date): readonly string[] => {
  const groups = new Map<string, string[]>();
  for (const { what, of, source } of from) {
    const where =
      source === 'history'
        ? 'Taken from the history of their cases'
        : source === 'index'
          ? 'Taken from an index of the damaged atlas'
          : `Taken from ${source.file}${source.at === null ? '' : `, ${ageOf(source.at, now)} old`}; what was changed or removed since then may be as it was`;
    groups.set(where, [...(groups.get(where) ?? []), `${what} ${of}`]);
  }
  return [...groups].map(([where, things]) => `${where}: ${listed(things)}.`);
};

const lostWords: Readonly<Record<MendReport['lost'][number]['what'], string>> = {
  sheet: 'Sheets of which no state could be read',
  photograph: 'Photographs that are lost: no copy is whole',
  'small picture': 'Photographs that are whole, but without their small picture',
  'case number': 'Cases whose number could not be read, and that have a new one',
  words: 'Cases of which words could not be read',
  'place of a photograph': 'Photographs of which something that stood beside them could not be read',
  pack: 'Packs that must be loaded again (kinplate pack load <folder>)',
};

const lostLines = (lost: MendReport['lost']): readonly string[] =>
  (Object.keys(lostWords) as (keyof typeof lostWords)[]).flatMap((what) => {
    const of = lost.filter((one) => one.what === what);
    const said = of.map(({ id, known }) => (known === '' ? id : what === 'pack' ? `${id}, edition ${known}` : `${id} (${known})`));
    return of.length === 0 ? [] : [`${lostWords[what]}: ${listed(said)}.`];
  });

const packLines = (packs: MendReport['packs'], now: Date): readonly string[] => {
  const there = packs.flatMap(({ id, edition, from }) =>
    from === null
      ? []
      : `${id}, edition ${edition}${from === 'damaged file' ? '' : from === 'shipped' ? ' (the one that comes with Kinplate)' : ` (of ${from.file}${from.at === null ? '' : `, ${ageOf(from.at, now)} old`})`}`,
  );
  return there.length === 0
    ? ['The new atlas has no packs. Load one: kinplate pack load <folder>.']
    : [`Packs in the new atlas: ${there.join('; ')}.`];
};

const sorts: Readonly<Record<string, string>> = {
  sheets: 'sheets',
  cases: 'case numbers',
  case_details: 'words on cases',
  case_entries: 'states of cases',
  photos: 'photographs',
  case_photos: 'photographs',
  shop_settings: 'the shop’s settings',
  kept_files: 'the files of papers and of the letterhead',
  documents: 'papers',
  stock: 'lines of stock',
  shop_prices: 'prices',
  courses: 'courses',
  learners: 'learners',
  drill_cards: 'days topics are due',
  case_words: 'decisions on cases',
  case_origins: 'numbers cases had elsewhere',
  cases_left: 'cases left as they were told',
  unit_numbers: 'numbers of units',
  drill_answers: 'answers',
};

const incompleteLines = (incomplete: MendReport['incomplete']): readonly string[] => {
  const of = [...new Set(incomplete.flatMap((name) => sorts[name] ?? []))];
  return of.length === 0
    ? []
    : [
        `Parts of the old file could not be read, and it does not say what stood there: ${of.join(', ')} may be missing. What is known to be missing is named above.`,
      ];
};

/** Of a long list the first; the rest is in the JSON form. */
const listed = (things: readonly string[]): string =>
  things.length <= 12 ? things.join('; ') : `${things.slice(0, 10).join('; ')} and ${things.length - 10} more (--format json lists them)`;

const ageOf = (at: string, now: Date): string => {
  const hours = Math.max(0, (now.getTime() - new Date(at).getTime()) / 3_600_000);
  return hours < 1
    ? counted(Math.round(hours * 60), 'minute')
    : hours < 48
      ? counted(Math.round(hours), 'hour')
      : counted(Math.round(hours / 24), 'day');
};

const dueOf = (topics: number): string => (topics === 1 ? '1 topic is due' : `${topics} topics are due`);
