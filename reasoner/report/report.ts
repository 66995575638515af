import type { Reason } from '../answer/verdict.ts';
import type { FeatureId, NameId, ObservationId, SlotId } from '../ids.ts';
import type { CaseFacts } from './case-facts.ts';
import type { GraphPicture } from './graph-picture.ts';

/**
 * The report for the customer as data: what the two printers (the window's page, the PDF) put on paper. Every line carries what it
 * rests on; a line with no reason cannot be made.
 */
export interface Report {
  readonly language: 'en-GB';
  /** Whose paper it is, put on by whoever prints it; left out where the shop has none. */
  readonly letterhead?: ReportLetterhead;
  readonly title: string;
  readonly subtitle: ReportLine;
  /** Label and value, for the block under the title. */
  readonly head: readonly ReportFact[];
  /** What it comes to, before the sections. */
  readonly brief: readonly ReportLine[];
  readonly sections: readonly ReportSection[];
  /** Stands at the foot of every page. */
  readonly foot: ReportLine;
}

/** The head of the shop's paper: no line of the report, and it says nothing of the unit. */
export interface ReportLetterhead {
  readonly name: string;
  readonly lines: readonly string[];
  /** A picture by the hash of its bytes; width and height in pixels. */
  readonly logo: { readonly file: string; readonly width: number; readonly height: number } | null;
}

export interface ReportFact {
  readonly label: string;
  readonly line: ReportLine;
}

export interface ReportLine {
  readonly text: string;
  /** Never empty. */
  readonly because: readonly ReportReason[];
}

/**
 * A line with what it rests on.
 * @throws on a line that rests on nothing: it has no place in a report
 */
export const line = (text: string, because: readonly ReportReason[]): ReportLine => {
  if (because.length === 0) throw new Error(`nothing in the answer says “${text}”`);
  return { text, because };
};

export type ReportSectionId = 'brought' | 'seen' | 'ruled-out' | 'stands' | 'open' | 'ticket' | 'shop-word' | 'photographs' | 'cautions';

export interface ReportSection {
  readonly id: ReportSectionId;
  readonly heading: string;
  readonly blocks: readonly ReportBlock[];
}

export type ReportBlock =
  | { readonly kind: 'paragraph'; readonly line: ReportLine }
  /** `numbered` lists are those the graph's numbers refer to. */
  | { readonly kind: 'list'; readonly numbered: boolean; readonly lines: readonly ReportLine[] }
  /** What was seen: a row for each slot, its entries run in after each other. */
  | { readonly kind: 'entries'; readonly rows: readonly { readonly head: string; readonly lines: readonly ReportLine[] }[] }
  /** The two ticket texts, side by side where there is room. */
  | { readonly kind: 'ticket'; readonly title: string; readonly lines: readonly ReportLine[] }
  | { readonly kind: 'graph'; readonly picture: GraphPicture; readonly caption: ReportLine }
  | { readonly kind: 'photographs'; readonly photographs: readonly ReportPhotograph[] };

export interface ReportPhotograph {
  readonly hash: string;
  readonly width: number;
  readonly height: number;
  readonly caption: ReportLine;
}

/** What a line rests on: the clauses' reasons, and the other members of the answer, the sheet, the case and the atlas. */
export type ReportReason =
  | Reason
  | { readonly kind: 'conflict'; readonly of: 'claim' | 'unit'; readonly index: number }
  /** A promise the claimed name's token makes; counted over the reading's tokens. */
  | { readonly kind: 'promise'; readonly token: number; readonly index: number }
  | { readonly kind: 'contradiction'; readonly index: number }
  /** What that contradiction's entry would mean were it the true one (O6). */
  | { readonly kind: 'if kept'; readonly index: number; readonly observation: ObservationId }
  | { readonly kind: 'ticket'; readonly text: 'may' | 'mustNot'; readonly index: number }
  /** What is left of a slot's candidates. */
  | { readonly kind: 'slot'; readonly slot: SlotId }
  /** How many models are ruled out, open and standing. */
  | { readonly kind: 'tally' }
  /** A feature by which the atlas tells what a name allows in a slot from what else is left there. */
  | { readonly kind: 'check'; readonly name: NameId; readonly slot: SlotId; readonly feature: FeatureId }
  | { readonly kind: 'edition' }
  | { readonly kind: 'sheet'; readonly field: 'id' | 'title' | 'story' | 'serial' | 'claimed' | 'claimedMaker' }
  | { readonly kind: 'unseen'; readonly index: number }
  | { readonly kind: 'case'; readonly field: keyof CaseFacts }
  | { readonly kind: 'photograph'; readonly index: number }
  /** The day the report was made, and whether the atlas is invented: handed in by whoever prints it. */
  | { readonly kind: 'making' };

/** Every line of a report, in the order it is read. */
export const linesOf = (report: Report): ReportLine[] => [
  report.subtitle,
  ...report.head.map(({ line }) => line),
  ...report.brief,
  ...report.sections.flatMap(({ blocks }) => blocks.flatMap(blockLines)),
  report.foot,
];

const blockLines = (block: ReportBlock): readonly ReportLine[] => {
  switch (block.kind) {
    case 'paragraph':
      return [block.line];
    case 'list':
    case 'ticket':
      return block.lines;
    case 'entries':
      return block.rows.flatMap(({ lines }) => lines);
    case 'graph':
      return [block.caption];
    case 'photographs':
      return block.photographs.map(({ caption }) => caption);
  }
};
