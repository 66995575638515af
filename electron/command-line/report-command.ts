import { linesOf, type Report, type ReportBlock } from '../../reasoner/index.ts';
import { photoIn } from '../print/case-of.ts';
import { makeReport } from '../print/make-report.ts';
import { type ExitCode, exitCodes } from './exit-codes.ts';
import type { AtlasChoice } from './open-atlas.ts';
import { sayTrouble, type Terminal } from './terminal.ts';
import { type SheetChoice, withSheet } from './with-atlas.ts';
import { writeWhole } from './write-whole.ts';

export interface ReportCommand extends AtlasChoice {
  readonly sheet: SheetChoice;
  readonly format: 'text' | 'json';
  /** Where the PDF goes; the document is printed as text or JSON where none is wanted. */
  readonly pdf: string | null;
}

/** `kinplate report`. Exits 0 once the report is made, whatever it says: `verdict` is the command that answers by its exit code. */
export const reportCommand = (command: ReportCommand, terminal: Terminal, now: () => Date): Promise<ExitCode> =>
  withSheet(command, terminal, async (atlas, sheet, store) => {
    const made = await makeReport(store, atlas, sheet, now());
    if (!made.ok) return sayTrouble(terminal, made.trouble);
    if (command.pdf === null) {
      terminal.out(command.format === 'json' ? `${JSON.stringify(made.value, null, 2)}\n` : reportText(made.value));
      return exitCodes.stands;
    }
    // The PDF library is read only when a PDF is asked for: every other command starts without it.
    const { reportPdf } = await import('../print/report-pdf.ts');
    const written = await writeWhole(command.pdf, await reportPdf(made.value, { made: now(), photo: photoIn(store) }));
    if (!written.ok) return sayTrouble(terminal, written.trouble);
    terminal.err(`· ${command.pdf}: ${linesOf(made.value).length} lines on paper`);
    return exitCodes.stands;
  });

/** The document as plain text; the picture of the reasons is left to paper, its caption with it. */
export const reportText = ({ title, subtitle, head, brief, sections, foot }: Report): string =>
  `${[
    `${title}: ${subtitle.text}`,
    ...head.map(({ label, line }) => `${label}: ${line.text}`),
    '',
    ...brief.map(({ text }) => text),
    ...sections.flatMap(({ heading, blocks }) => ['', heading, ...blocks.flatMap(blockText)]),
    '',
    foot.text,
  ].join('\n')}\n`;

const blockText = (block: ReportBlock): string[] => {
  switch (block.kind) {
    case 'paragraph':
      return [`  ${block.line.text}`];
    case 'list':
      return block.lines.map(({ text }, i) => `  ${block.numbered ? `${i + 1}.` : '-'} ${text}`);
    case 'ticket':
      return [`  ${block.title}:`, ...block.lines.map(({ text }) => `    - ${text}`)];
    case 'entries':
      return block.rows.map(({ head, lines }) => `  ${head}: ${lines.map(({ text }) => text).join('; ')}`);
    case 'graph':
      return [];
    case 'photographs':
      return block.photographs.map(({ caption }) => `  ${caption.text}`);
  }
};
