import type { Answer, Conflicts, Verdict } from '../answer/verdict.ts';
import type { CompiledAtlas } from '../compile/compiled.ts';
import { slotNameOf } from '../compile/slot-name.ts';
import { dayInWords } from '../plain/day-in-words.ts';
import { shopWordApart, shopWordHeading, shopWordSentences } from '../plain/shop-word.ts';
import type { Sheet } from '../sheet/sheet.ts';
import { unitOf } from '../unit/unit.ts';
import { cautions as standingCautions } from '../words/cautions.ts';
import type { CaseFacts } from './case-facts.ts';
import { graphBlock } from './graph-block.ts';
import { line, type Report, type ReportBlock, type ReportFact, type ReportLine, type ReportSection } from './report.ts';
import { claimReasons, disagreements, inBrief, tally } from './ruled-out.ts';
import { whatIsOpen } from './what-is-open.ts';
import { whatStands } from './what-stands.ts';
import { broughtIn, entriesBlock, measuredLine, notLookedAt, remarks, unseenLines } from './what-was-seen.ts';

export interface ReportInput {
  readonly atlas: CompiledAtlas;
  readonly sheet: Sheet;
  /** The answer on exactly this sheet. */
  readonly answer: Answer;
  readonly facts?: CaseFacts;
  /** Whether the story is printed too: it is the shop's private note, and left out unless somebody asks. */
  readonly story?: boolean;
  /** The day it is made, as an ISO date, and whether the atlas is an invented one. */
  readonly making: { readonly on: string; readonly invented: boolean };
}

/**
 * The report for the customer: what was brought in and claimed, what was seen, what is ruled out and why, what stands, what is open, both
 * ticket texts and the cautions. Nothing in it that is not in the proof: every line names the members of answer, sheet or case it rests on.
 * @throws when the answer is of another sheet, or the sheet is a plan, which has a build sheet and no report
 */
export const reportOf = (input: ReportInput): Report => {
  const { sheet, answer } = input;
  if (answer.sheet !== sheet.id) throw new Error(`an answer on sheet ${answer.sheet} is no ground for a report on ${sheet.id}`);
  if (sheet.kind !== 'found') throw new Error('a planned build has a build sheet, no report');
  return {
    language: 'en-GB',
    title: 'Report on a turbocharger',
    subtitle: line(sheet.title.trim() === '' ? 'Untitled unit' : sheet.title.trim(), [{ kind: 'sheet', field: 'title' }]),
    head: headOf(input),
    brief: briefOf(answer),
    sections: sectionsOf(input).filter(({ blocks }) => blocks.length > 0),
    foot: line(`Sheet ${sheet.id}. Atlas ${answer.edition}${input.making.invented ? ', invented data' : ''}.`, [
      { kind: 'sheet', field: 'id' },
      { kind: 'edition' },
      { kind: 'making' },
    ]),
  };
};

const headOf = ({ sheet, facts = {}, making, atlas }: ReportInput): ReportFact[] => {
  const fromCase = (label: string, field: 'number' | 'date' | 'customer' | 'lookedBy', text = facts[field]): ReportFact[] =>
    text === undefined || text.trim() === '' ? [] : [{ label, line: line(text, [{ kind: 'case', field }]) }];
  const maker = sheet.claimedMaker === null ? null : (atlas.makers.get(sheet.claimedMaker)?.name ?? sheet.claimedMaker);
  const claimed = sheet.claimed?.trim() ?? '';
  return [
    ...fromCase('Case', 'number'),
    ...fromCase('Customer', 'customer'),
    ...fromCase('Case opened', 'date', facts.date === undefined ? undefined : dayInWords(facts.date)),
    ...fromCase('Looked at by', 'lookedBy'),
    {
      label: 'Offered as',
      line: line(claimed === '' ? 'no name' : `${claimed}${maker === null ? '' : `, said to be ${maker}`}`, [
        { kind: 'sheet', field: 'claimed' },
        ...(maker === null ? [] : [{ kind: 'sheet', field: 'claimedMaker' } as const]),
      ]),
    },
    ...(sheet.serial === undefined
      ? []
      : [{ label: 'Serial number', line: line(sheet.serial.trim(), [{ kind: 'sheet', field: 'serial' } as const]) }]),
    { label: 'Report made', line: line(dayInWords(making.on), [{ kind: 'making' }]) },
  ];
};

/** What it comes to: the claim's status in its own sentence, and the first words of the ticket. */
const briefOf = (answer: Answer): ReportLine[] => {
  switch (answer.kind) {
    case 'contradiction':
      return [
        line(
          'Entries disagree with each other. Nothing is judged until they are settled.',
          answer.contradictions.map((_, index) => ({ kind: 'contradiction', index })),
        ),
      ];
    case 'verdict': {
      const { claim } = answer;
      const said = claim?.sentences.slice(0, inBrief(claim)) ?? [];
      const readings = claim?.restsOn.map((observation) => ({ kind: 'observation', observation }) as const) ?? [];
      const may = answer.ticket.may.slice(0, 1);
      return [
        ...said.map((sentence) => line(sentence, [{ kind: 'claim' }, ...readings])),
        // A name that stands is never said without its caution (N3); the clause carries it.
        ...may.map(({ text, because }, index) => line(text, [{ kind: 'ticket', text: 'may', index }, ...because])),
      ];
    }
  }
};

const sectionsOf = (input: ReportInput): ReportSection[] => {
  const { atlas, sheet, answer } = input;
  const before: ReportSection[] = [
    {
      id: 'brought',
      heading: 'What was brought in and claimed',
      blocks: paragraphs(broughtIn(atlas, input.story === true ? sheet : { ...sheet, story: '' }, answer)),
    },
    {
      id: 'seen',
      heading: 'What was seen',
      blocks: [
        ...entriesBlock(atlas, sheet),
        ...paragraphs([...measuredLine(sheet), ...unseenLines(atlas, sheet), ...notLookedAt(atlas, sheet, answer), ...remarks(answer)]),
      ],
    },
  ];
  switch (answer.kind) {
    case 'contradiction':
      return [
        ...before,
        {
          id: 'open',
          heading: 'What is open',
          blocks: [
            {
              kind: 'list',
              numbered: false,
              lines: answer.contradictions.flatMap(({ sentence, observations, meanings }, index) => [
                line(sentence, [
                  { kind: 'contradiction', index },
                  ...observations.map((observation) => ({ kind: 'observation', observation }) as const),
                ]),
                ...(meanings ?? []).map((each) =>
                  line(each.sentence, [
                    { kind: 'if kept', index, observation: each.observation },
                    { kind: 'observation', observation: each.observation },
                  ]),
                ),
              ]),
            },
          ],
        },
        ...shopWordOf(input),
        cautionsOf(standingCautions),
        ...photographsOf(input),
      ];
    case 'verdict':
      return [...before, ...judged(input, answer), ...shopWordOf(input), cautionsOf(answer.cautions), ...photographsOf(input)];
  }
};

const judged = (input: ReportInput, verdict: Verdict): ReportSection[] => {
  const { atlas, sheet } = input;
  const unit = unitOf(atlas, sheet);
  const claimed = verdict.names.find(({ name }) => name.id === verdict.claim?.name) ?? null;
  const reasons = claimReasons(verdict, claimed);
  const own = disagreements(verdict, reasons.shown);
  const drawn: { conflicts: Conflicts['found']; all: Conflicts['found']; of: 'claim' | 'unit' } =
    reasons.shown.length > 0
      ? { conflicts: reasons.shown, all: claimed?.conflicts?.found ?? [], of: 'claim' }
      : { conflicts: own.shown, all: verdict.unit.found, of: 'unit' };
  return [
    {
      id: 'ruled-out',
      heading: 'What is ruled out, and why',
      blocks: [
        ...reasons.blocks,
        ...own.blocks,
        ...paragraphs([tally(verdict)]),
        ...graphBlock(atlas, sheet, drawn.conflicts, drawn.all, drawn.of, drawn.of === 'claim' ? (claimed?.name ?? null) : null),
      ],
    },
    { id: 'stands', heading: 'What stands', blocks: paragraphs(whatStands(atlas, verdict)) },
    { id: 'open', heading: 'What is open, and what would settle it', blocks: whatIsOpen(unit, verdict) },
    {
      id: 'ticket',
      heading: 'For the ticket',
      blocks: [ticketBlock(verdict, 'may', 'How it may be described'), ticketBlock(verdict, 'mustNot', 'How it must not be described')],
    },
  ];
};

const ticketBlock = (verdict: Verdict, text: 'may' | 'mustNot', title: string): ReportBlock => ({
  kind: 'ticket',
  title,
  lines: verdict.ticket[text].map((clause, index) => line(clause.text, [{ kind: 'ticket', text, index }, ...clause.because])),
});

/** What was decided beside the verdict, in a section of its own after the program's words for the ticket. */
const shopWordOf = ({ facts }: ReportInput): ReportSection[] => {
  const word = facts?.word;
  if (word === undefined) return [];
  const lines = [...shopWordSentences(word), shopWordApart].map((text) => line(text, [{ kind: 'case', field: 'word' }]));
  return [{ id: 'shop-word', heading: shopWordHeading(word), blocks: paragraphs(lines) }];
};

/** A photograph of an entry that was taken back since still shows its caption; what it was of is then no member of the proof. */
const photographsOf = ({ atlas, facts, sheet }: ReportInput): ReportSection[] => {
  const photographs = (facts?.photographs ?? []).map(({ hash, width, height, caption, slot, observation }, index) => {
    const entry = sheet.observations.find(({ id }) => id === observation);
    const of = entry?.slot ?? slot;
    const shows = of === null ? [] : [slotNameOf(atlas, of)];
    return {
      hash,
      width,
      height,
      caption: line([`${index + 1}`, ...shows, ...(caption.trim() === '' ? [] : [caption.trim()])].join('. '), [
        { kind: 'photograph', index },
        ...(entry === undefined ? [] : [{ kind: 'observation', observation: entry.id } as const]),
      ]),
    };
  });
  return photographs.length === 0 ? [] : [{ id: 'photographs', heading: 'Photographs', blocks: [{ kind: 'photographs', photographs }] }];
};

const cautionsOf = (cautions: readonly string[]): ReportSection => ({
  id: 'cautions',
  heading: 'Cautions',
  blocks: [{ kind: 'list', numbered: false, lines: cautions.map((text, index) => line(text, [{ kind: 'caution', index }])) }],
});

const paragraphs = (lines: readonly ReportLine[]): ReportBlock[] => lines.map((line) => ({ kind: 'paragraph', line }));
