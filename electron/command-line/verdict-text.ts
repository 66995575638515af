import type {
  Answer,
  Atlas,
  Conflicts,
  MakerId,
  NameAnswer,
  PartId,
  Replacements,
  Sheet,
  SlotId,
  Status,
  SwapSet,
  SwapSets,
  Verdict,
} from '../../reasoner/index.ts';
import { listsNone } from '../../reasoner/plain/lists-none.ts';
import { reasonsPhrase } from '../../reasoner/plain/reasons-phrase.ts';

/** How many parts of a slot, and conflicts or swaps of a name, are written out; the rest is counted. JSON has them all. */
const partsShown = 6;
const reasonsShown = 12;
const needsShown = 4;

/** A verdict as text for a terminal or a ticket printer. Every sentence in it is the reasoner's; this only lays them out. */
export const verdictText = (answer: Answer, sheet: Sheet, atlas: Atlas): string => {
  const words = new Words(atlas);
  const head = [`${sheet.title} (sheet ${answer.sheet}, atlas ${answer.edition})`, ''];
  switch (answer.kind) {
    case 'contradiction':
      return lines([
        ...head,
        'Observations contradict each other. Nothing is judged until they are settled:',
        ...answer.contradictions.flatMap(({ observations, sentence, meanings }) => [
          `  - ${sentence} (${observations.join(', ')})`,
          ...(meanings ?? []).map((each) => `    ${each.sentence}`),
        ]),
      ]);
    case 'verdict':
      return lines([
        ...head,
        ...honestLines(answer),
        ...claimLines(answer, words),
        ...section(
          'Findings',
          answer.findings.map((finding) => finding.sentence),
        ),
        ...conflictLines('The unit does not agree with itself', answer.unit),
        ...slotLines(answer, words),
        ...section(
          'How it may be described',
          answer.ticket.may.map((clause) => clause.text),
        ),
        ...section(
          'How it must not be described',
          answer.ticket.mustNot.map((clause) => clause.text),
        ),
        ...section('Cautions', answer.cautions),
      ]);
  }
};

/** One name explained: its status, and where it is ruled out, why and what would change it. */
export const nameText = (answer: NameAnswer, atlas: Atlas): string => {
  const words = new Words(atlas);
  return lines([
    `${answer.name.text} (${answer.name.rung}): ${answer.status}`,
    ...(answer.unsettled.length > 0 ? [`  Not settled: ${answer.unsettled.map((slot) => words.slot(slot)).join(', ')}`] : []),
    ...(answer.conflicts === null ? [] : conflictLines('Why not', answer.conflicts)),
    ...(answer.swaps === null ? [] : swapLines(answer.swaps, words)),
  ]);
};

const honestLines = (verdict: Verdict): string[] => {
  const texts = (names: readonly string[]) => names.map((id) => verdict.names.find(({ name }) => name.id === id)?.name.text ?? id);
  const open = texts(verdict.open);
  return [
    `Honest name: ${texts(verdict.honest).join(' or ') || 'none'}`,
    ...(open.length > 0 ? [`Still open above it: ${open.join('; ')}`] : []),
  ];
};

const claimLines = (verdict: Verdict, words: Words): string[] => {
  const { claim } = verdict;
  if (claim === null) return [];
  const named = verdict.names.find(({ name }) => name.id === claim.name);
  return [
    '',
    `Claimed: “${claim.text}”: ${claim.status}`,
    ...claim.sentences.map((sentence) => `  ${sentence}`),
    ...(named?.conflicts == null ? [] : conflictLines(`Why not ${named.name.text}`, named.conflicts)),
    ...(named?.swaps == null ? [] : swapLines(named.swaps, words)),
  ];
};

const conflictLines = (title: string, conflicts: Conflicts): string[] => {
  const shown = conflicts.found.slice(0, reasonsShown);
  const rest = conflicts.found.length - shown.length;
  return [
    ...numbered(
      title,
      shown.map(({ sentence }) => sentence),
    ),
    ...(rest > 0
      ? [`  (${rest} more ${rest === 1 ? 'line says' : 'lines say'} so too; ${reasonsPhrase(conflicts.independent)} in all)`]
      : []),
    ...(conflicts.complete ? [] : ['  (there may be more: the search stopped at its limit)']),
  ];
};

const swapLines = (swaps: SwapSets, words: Words): string[] => {
  const shown = swaps.found.slice(0, reasonsShown);
  const rest = swaps.found.length - shown.length;
  return [
    ...numbered(
      'What would bring the name back',
      shown.map((swap) => swapLine(swap, words)),
    ),
    ...(rest > 0 ? [`  (and ${rest} more)`] : []),
    ...(swaps.complete ? [] : ['  (there may be others: the search stopped at its limit)']),
  ];
};

const swapLine = ({ parts, plates, minutes, work, leaves }: SwapSet, words: Words): string => {
  const exchanged = parts
    .map(
      ({ slot, parts: choice }) =>
        `${words.slot(slot)} (${choice.length === 0 ? 'no listed part is known to do it' : words.parts(choice)})`,
    )
    .join(', ');
  return [
    ...(parts.length === 0 ? [] : [`exchange ${exchanged}: about ${minutes} min${work > 0 ? `, ${work} of them work` : ''}`]),
    ...plates.map((slot) => `${words.slot(slot)}: only the maker can confirm or issue one`),
    thenWords[leaves],
  ]
    .join('; ')
    .concat(...parts.map((choice) => needLines(choice, words)));
};

/** What parts that do not simply drop in need, each on a line under the swap. */
const needLines = ({ slot, needs }: Replacements, words: Words): string => {
  const shown = needs.slice(0, needsShown).map((need) => `${words.slot(slot)} ${words.parts(need.parts)}: ${need.sentences.join(' ')}`);
  const rest = needs.length - shown.length;
  return [...shown, ...(rest > 0 ? [`${words.slot(slot)}: ${rest} more parts or groups of parts do not simply drop in`] : [])]
    .map((line) => `\n     - ${line}`)
    .join('');
};

const thenWords: Readonly<Record<Status, string>> = {
  stands: 'the name then stands',
  open: 'the name is then still open',
  'ruled out': 'not enough by itself: the name is then still ruled out',
};

const slotLines = (verdict: Verdict, words: Words): string[] =>
  section(
    'Slot by slot',
    verdict.slots.map((slot) => {
      const name = words.slot(slot.slot);
      if (slot.absent) return `${name}: absent`;
      if (listsNone(slot)) return `${name}: the atlas lists none`;
      const doubt = slot.doubtful ? '; in doubt, may be an unlisted part' : '';
      const silent = slot.silent.length > 0 ? `; the atlas is silent on something of ${slot.silent.length} of them` : '';
      if (slot.numberNotListed !== null) {
        const left = slot.candidates.length === 0 ? '' : `: ${words.parts(slot.candidates)}`;
        return `${name}: ${slot.candidates.length} of ${slot.listed} listed parts remain${left}; beside them a plate of ${slot.numberNotListed.map((maker) => words.maker(maker)).join(' or ')}, its number not listed`;
      }
      const machined = slot.machined.length > 0 ? `; ${slot.machined.length} of them only if machined` : '';
      if (slot.candidates.length === 0) return `${name}: none of ${slot.listed} listed parts remains${doubt}`;
      return `${name}: ${slot.candidates.length} of ${slot.listed} listed parts remain${machined}${silent}${doubt}: ${words.parts(slot.candidates)}`;
    }),
  );

const section = (title: string, entries: readonly string[]): string[] =>
  entries.length === 0 ? [] : ['', `${title}:`, ...entries.map((entry) => `  - ${entry}`)];

const numbered = (title: string, entries: readonly string[]): string[] =>
  entries.length === 0 ? [] : ['', `${title}:`, ...entries.map((entry, index) => `  ${index + 1}. ${entry}`)];

const lines = (all: readonly string[]): string => `${all.join('\n')}\n`;

class Words {
  readonly #slots: ReadonlyMap<SlotId, string>;
  readonly #parts: ReadonlyMap<PartId, string>;
  readonly #makers: ReadonlyMap<MakerId, string>;
  constructor(atlas: Atlas) {
    this.#slots = new Map(atlas.slots.map(({ id, name }) => [id, name]));
    this.#makers = new Map(atlas.makers.map(({ id, name }) => [id, name]));
    this.#parts = new Map(atlas.parts.map(({ id, name }) => [id, name]));
  }
  maker(id: MakerId): string {
    return this.#makers.get(id) ?? id;
  }
  slot(id: SlotId): string {
    return this.#slots.get(id) ?? id;
  }
  parts(ids: readonly PartId[]): string {
    const named = ids.slice(0, partsShown).map((id) => this.#parts.get(id) ?? id);
    return ids.length > partsShown ? `${named.join(', ')} and ${ids.length - partsShown} more` : named.join(', ');
  }
}
